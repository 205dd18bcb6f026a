"""The only code that imports manim: it draws figures and motions; it computes no geometry and decides no words."""
