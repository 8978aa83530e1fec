"""What services order, in the packs that are sold."""
