"""The clip, and pictures drawn with it: stills, the poster."""
