"""The pages of the desk: one blueprint a subject. A view parses, calls one function, and renders."""
