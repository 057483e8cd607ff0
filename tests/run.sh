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
failed=0
node server/start.mjs --build-only || exit 1
npx vitest run --reporter=default --reporter=json --outputFile.json="$results/core.json" || failed=1
npx vitest run --config tests/browser/vitest.config.ts --reporter=default --reporter=json --outputFile.json="$results/browser.json" || failed=1
node tests/sum-up.mjs "$results/core.json" "$results/browser.json" || failed=1
exit "$failed"
