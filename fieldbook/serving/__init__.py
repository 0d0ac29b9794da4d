"""How a book is reached: its address, its name on the network, why phones trust it, the server."""
