# The project's two commands are `make guide` and `make test`; `make lock` renews the locked versions.
# Programs of the environment are called as modules: their own start lines break in paths with spaces.
PYTHON ?= python3
IN_ENV := .venv/bin/python -m

.PHONY: guide test lock environment chromium

guide: environment
	$(IN_ENV) guidegen build .

test: environment chromium
	$(IN_ENV) pytest -n 2 --dist loadgroup

# Made anew when the lock, the project file or the place of the folder has changed; the mark is
# written last, so that an install that was cut off is not taken for a finished one.
environment:
	@set -eu; \
	wanted="$$(pwd -P) $$(cat requirements.txt pyproject.toml | cksum)"; \
	if [ -x .venv/bin/python ] && [ "$$(cat .venv/made-for 2>/dev/null)" = "$$wanted" ]; then exit 0; fi; \
	"$(PYTHON)" -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { \
	  echo "guidegen needs Python 3.11 or newer: install it, then say make PYTHON=/path/to/it." >&2; exit 2; }; \
	"$(PYTHON)" -m venv --clear .venv; \
	$(IN_ENV) pip install -qq --disable-pip-version-check --require-hashes -r requirements.txt; \
	$(IN_ENV) pip install -qq --disable-pip-version-check --no-deps --no-build-isolation -e .; \
	printf '%s\n' "$$wanted" > .venv/made-for

chromium:
	@set -eu; \
	if command -v chromium || command -v chromium-browser || command -v google-chrome; then exit 0; fi >/dev/null; \
	if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	  apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium; \
	else \
	  echo "The browser tests need Chromium: install the system's package chromium, then run make test again." >&2; \
	  exit 2; \
	fi

lock:
	uv pip compile pyproject.toml --group test --group build --universal --fork-strategy fewest \
	  --python-version 3.11 --generate-hashes --no-emit-index-url --no-annotate \
	  --custom-compile-command "make lock" --quiet --upgrade --output-file requirements.txt
