"""Drawn things kept between runs; what they show, and how they are named, is the business of whoever keeps them."""
