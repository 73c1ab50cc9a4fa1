"""Photos: looked at before they are taken, kept by the hash of their bytes beside the database, outside of any web root."""
