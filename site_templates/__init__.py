"""Templates, stylesheet and page scripts; a package so that the wheel carries them."""
