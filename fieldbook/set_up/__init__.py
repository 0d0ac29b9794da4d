"""Setting a machine up. Standard library only, and readable by an old Python."""
