"""Forms, made from the fields they are about."""
