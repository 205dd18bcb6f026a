"""Encoder options, skip packets and assembly: what clips are made of, with no idea what they show."""
