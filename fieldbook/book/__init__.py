"""A book on disk: the ledger, the tables made from it, files by their digest, backup and examination."""
