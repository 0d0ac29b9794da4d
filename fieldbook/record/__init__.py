"""What is handed over: drawings, and the record as a PDF.

A site is gathered once (`compile`); every output renders that one structure, so none contradicts
another. Imports the checks and the book; knows nothing of the web.
"""
