"""From a kit of bearing parts, with theory, evaluate joints and publish a guide."""
