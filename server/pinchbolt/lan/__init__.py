"""HTTPS on a workshop's own network: its authority, the server's certificate, and how a phone comes to trust them."""
