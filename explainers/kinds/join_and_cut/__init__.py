"""Joining and cutting: pieces are joined to a base, or cut away from it, where their marks meet."""
