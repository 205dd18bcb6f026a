"""The deck as native slides."""
