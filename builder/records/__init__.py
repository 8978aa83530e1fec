"""What a cut, a cook, a plate and a swap are: typed records made from positioned text."""
