"""What is handed over: the record as a PDF, and the folder with tables, drawings, diary, labels and ledger.

A site is gathered once; every output renders that one state of it, so none contradicts another.
Imports the checks and the book; knows nothing of the web.
"""
