"""People, their devices, how a device is paired, and who may do what."""
