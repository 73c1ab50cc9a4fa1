"""The record in a PostgreSQL database, for several server processes at once."""

from pinchbolt.store.postgres.database import PostgresDatabase

__all__ = ["PostgresDatabase"]
