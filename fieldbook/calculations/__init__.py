"""What each calculation asks for, for form, command line and guide alike, and the list of them."""
