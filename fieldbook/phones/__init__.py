"""The phones of a book: how they join, what they send in pieces, and visits carried in a file."""
