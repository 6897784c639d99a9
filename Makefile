# Two commands do everything on a fresh Debian-like machine with Rust and Node:
#   make demo   builds the command and makes a build pack from an example
#   make test   installs what the tests need and runs all of them
# And one opens the page over the folder jobs/: make serve
#
# The demo builds the command without papers first and shows a verdict, then the papers, and leaves the
# page's server, its database and the examples out (docs/build.md). All else builds the whole workspace, so that its crates settle on the same features
# and the document compiler is compiled once.
.PHONY: demo serve page test outside tools bench fuzz soak

BRIMFUL = target/release/brimful

demo:
	cargo build --release --locked -p brimful --bin brimful --no-default-features
	$(BRIMFUL) check examples/shelf-box.job.toml
	@echo "That is the verdict. The papers need the document compiler, which takes a little longer."
	cargo build --release --locked -p brimful --bin brimful --no-default-features --features papers
	$(BRIMFUL) pack examples/shelf-box.job.toml -o build-pack
	@echo "The build pack is in build-pack/: begin with build-pack.pdf."

# The page: built once with Node, then part of the command.
serve: page
	cargo build --release --locked --workspace --bins
	mkdir -p jobs
	$(BRIMFUL) serve jobs

page:
	cd web && npm ci --silent --no-audit --no-fund && npm run build

# The page is built first: the command that is tried in a browser has it inside.
test: tools page
	cd web && npm test --silent
	cargo test --release --locked --workspace
	tests/outside/run.sh
	tests/page/run.sh
	fuzz/run.sh 60

# Readers and libraries that are not ours, to judge what we write and measure.
tools:
	tests/outside/setup.sh

outside: tools
	tests/outside/run.sh

bench:
	cargo bench --locked -p brimful-tank --bench check
	cargo run --release --locked -p brimful-mech --example shell_cost
	cargo run --release --locked -p brimful-slosh --example sweep_cost
	cargo run --release --locked -p brimful-tank --example check_cost -- examples/*.job.toml
	cargo run --release --locked -p brimful-geom --example scan_cost
	python3 benches/measure.py --rebuild
	python3 benches/fit.py
	node benches/page.mjs

fuzz:
	fuzz/run.sh 600

# The laws on random bodies, spaces, meshes and cutting lists tried so many times as often as by `make
# test`, those on the check of a whole tank on a thousand random tanks, the layouts of purchase
# specifications held against their page, the decks of all examples in another program (needs `make
# tools`), and ten minutes of fuzzing each: two hours or so. Last results: docs/soak.md.
SOAK = 20
SOAK_OF_TANKS = 84
soak:
	BRIMFUL_SOAK=$(SOAK) cargo test --release --locked --workspace --no-fail-fast \
	    --test random_bodies --test spaces --test mesh --test shop
	BRIMFUL_SOAK=$(SOAK_OF_TANKS) cargo test --release --locked --workspace \
	    --test random_tanks -- --nocapture
	cargo build --release --locked --workspace --bins --examples
	target/release/examples/purchase | diff docs/purchase-verdicts.md -
	packs=$$(mktemp -d) && .venv/bin/python tests/outside/check_examples.py target/release $$packs; \
	    result=$$?; rm -rf $$packs; exit $$result
	fuzz/run.sh 600
