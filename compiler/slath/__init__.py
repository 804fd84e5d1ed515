"""slath: one basket pattern in, checked numbers, drawings and printable booklets out."""

__version__ = "0.1.0"
