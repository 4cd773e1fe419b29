"""The website: page bodies, charts, and one thin adapter that knows MkDocs."""
