"""A recorded voice: read, measured, split at its silences, levelled and laid along a lesson."""
