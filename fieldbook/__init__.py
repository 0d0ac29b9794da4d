"""Field notebook and fixing record for removable fittings in protected buildings.

Imports run one way: web, cli -> record -> checks, book -> ledger -> kinds.
"""

__version__ = "0.1.0"
