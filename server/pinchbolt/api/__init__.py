"""The HTTP interface: one file a resource."""

PROTOCOL = "1"
PROTOCOL_HEADER = "Pinchbolt-Protocol"
