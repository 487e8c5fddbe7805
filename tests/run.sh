#!/usr/bin/env bash
# Installs what the tests need, builds everything once and runs every test. Closes with "N passed, N failed".
# Needs the .NET 10 SDK; on Debian it installs the rest itself (as root, or with sudo).
set -uo pipefail
cd "$(dirname "$0")/.."

need=()
command -v chromium >/dev/null 2>&1 || need+=(chromium)
command -v hledger >/dev/null 2>&1 || need+=(hledger)
command -v ledger >/dev/null 2>&1 || need+=(ledger)
command -v soffice >/dev/null 2>&1 || need+=(libreoffice-calc)
if [ ${#need[@]} -gt 0 ]; then
  echo "Installing ${need[*]}"
  as_root=(); [ "$(id -u)" = 0 ] || as_root=(sudo)
  "${as_root[@]}" apt-get update -qq
  DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get install -y -qq --no-install-recommends "${need[@]}" >/dev/null || { echo "Could not install ${need[*]}; install them and run again."; exit 1; }
fi

export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
results=out/results
rm -rf "$results"; mkdir -p "$results"
dotnet build Cellarbook.sln -v q --nologo || { echo "0 passed, 1 failed"; exit 1; }
status=0
dotnet test --solution Cellarbook.sln --no-build --no-ansi --no-progress --results-directory "$results" --report-trx || status=$?

count() { grep -ho '<Counters [^>]*' "$results"/*.trx | grep -oE "(^| )$1=\"[0-9]+\"" | tr -dc '0-9\n' | awk '{ sum += $1 } END { print sum + 0 }'; }
total=$(count total); passed=$(count passed); failed=$(count failed)
[ "$total" -gt 0 ] || status=1
echo "$passed passed, $failed failed"
[ "$status" = 0 ] && [ "$failed" = 0 ]
