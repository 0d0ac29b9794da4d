"""The phone's side: its app as it is handed out, what it asks for, and how it comes to trust a book."""
