"""A whole question proposed from a drawing, a slide or a picture: bytes in, a proposal out, nothing taken on trust."""
