"""What can be drawn: display lists on a 16 x 9 stage, and motions between them, with no idea who draws them."""
