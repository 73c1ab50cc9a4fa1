"""Pinchbolt: the record and the calculator of a bicycle builder's bench."""
