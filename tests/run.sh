#!/usr/bin/env bash
# The whole suite, as `npm test` runs it: prepares the system tools it needs (as root), builds once, runs everything, sums up.
set -uo pipefail
cd "$(dirname "$0")/.."

missing=()
for tool in chromium socat strace python3 openssl unzip; do command -v "$tool" >/dev/null 2>&1 || missing+=("$tool"); done
# What another program reads out of a printed record; its package has another name.
command -v pdftotext >/dev/null 2>&1 || missing+=(poppler-utils)
if ((${#missing[@]})); then
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
    apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null || exit 1
  else
    echo "The tests need: ${missing[*]}. Install them, then run npm test again:" >&2
    echo "  sudo apt-get install -y ${missing[*]}" >&2
    exit 1
  fi
fi

results=$(mktemp -d)
trap 'rm -rf "$results"' EXIT
node server/start.mjs --build-only || exit 1
suite() { npx vitest run "$@" --reporter=default --reporter=json; }
suite --outputFile.json="$results/core.json"
core=$?
suite --config tests/browser/vitest.config.ts --outputFile.json="$results/browser.json"
browser=$?

# What failed while waiting for another program is run once more with the machine to itself, and the closing lines say so either way.
mapfile -t core_again < <(npx tsx tests/closing/again.ts "$results/core.json")
mapfile -t browser_again < <(npx tsx tests/closing/again.ts "$results/browser.json")
((${#core_again[@]})) && suite --maxWorkers=1 --outputFile.json="$results/core-again.json" "${core_again[@]}"
((${#browser_again[@]})) && suite --config tests/browser/vitest.config.ts --maxWorkers=1 --outputFile.json="$results/browser-again.json" "${browser_again[@]}"
npx tsx tests/closing/sum-up.ts "$results/core.json=$core" "$results/browser.json=$browser" \
  --again "$results/core-again.json" "$results/browser-again.json"
