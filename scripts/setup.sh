# Sourced by ./start, ./check and ./faultwright: makes sure the libraries of the lock file are there, and the
# command is built. Says what it does unless quiet=yes. Needs nothing but Node and npm; works offline once done.
say() { [ "${quiet:-no}" = yes ] || printf '%s\n' "$*"; }

need_node() {
  command -v node >/dev/null 2>&1 || { echo "Faultwright needs Node.js 20.19 or newer, and found none. Install it, then run this again." >&2; exit 3; }
  node -e 'const [a, b] = process.versions.node.split(".").map(Number); process.exit(a > 20 || (a === 20 && b >= 19) ? 0 : 1)' || {
    echo "Faultwright needs Node.js 20.19 or newer, and found $(node --version). Install a newer one, then run this again." >&2
    exit 3
  }
}

need_libraries() {
  sum=$(cksum < package-lock.json)
  if [ "$(cat node_modules/.lock-sum 2>/dev/null)" = "$sum" ]; then return; fi
  say "Installing the libraries (once; later runs need no network) ..."
  if ! npm ci --no-progress --loglevel=error >/tmp/faultwright-npm.$$ 2>&1; then
    cat /tmp/faultwright-npm.$$ >&2; rm -f /tmp/faultwright-npm.$$
    echo "The libraries could not be installed; the first run needs the network." >&2
    exit 3
  fi
  rm -f /tmp/faultwright-npm.$$
  printf '%s\n' "$sum" > node_modules/.lock-sum
}

need_build() {
  if [ -f dist/faultwright.mjs ] && [ -z "$(find src vite.config.ts package-lock.json -newer dist/faultwright.mjs -print -quit)" ]; then return; fi
  say "Building the command ..."
  NODE_ENV=production npx --no-install vite build --logLevel error >&2 || { echo "The command could not be built." >&2; exit 3; }
  touch dist/faultwright.mjs
}

need_app() {
  if [ -f dist/app/index.html ] && [ -z "$(find src data examples vite.web.config.ts package-lock.json -newer dist/app/index.html -print -quit)" ]; then return; fi
  say "Building the app ..."
  NODE_ENV=production npx --no-install vite build -c vite.web.config.ts --logLevel error >&2 || { echo "The app could not be built." >&2; exit 3; }
  touch dist/app/index.html
}

# The checks drive the app in a real browser: Debian's, where none is there and this is root.
need_browser() {
  if [ -n "${CHROMIUM:-}" ] || [ -x /usr/bin/chromium ]; then return; fi
  say "Installing Chromium from Debian's packages (once) ..."
  if ! { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq chromium; } >/tmp/faultwright-apt.$$ 2>&1; then
    tail -5 /tmp/faultwright-apt.$$ >&2; rm -f /tmp/faultwright-apt.$$
    echo "The checks need Chromium: install it, or name one in CHROMIUM." >&2
    exit 3
  fi
  rm -f /tmp/faultwright-apt.$$
}
