"""View models, components, charts and the pages composed of them."""
