"""Hypothesis for the kernel's laws: the same examples every time, and no clock on a busy machine."""

from hypothesis import settings

settings.register_profile("kernel", deadline=None, derandomize=True, database=None)
settings.load_profile("kernel")
