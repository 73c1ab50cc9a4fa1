"""The domain, written once: these files run on the server (CPython) and, unchanged, on the phone (MicroPython)."""
