"""Pinchbolt: the record and the calculator of a bicycle builder's bench."""

__version__ = "0.1.0"
