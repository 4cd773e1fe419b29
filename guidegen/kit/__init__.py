"""What we have: records of parts, stock and kits, and the only reader of data/ and tables/."""
