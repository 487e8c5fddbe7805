#!/usr/bin/env bash
# Takes a picture of every page of the demonstration book, on a phone and at a table, into api-docs/screens (or the folder given).
# Needs Chromium (CELLARBOOK_CHROMIUM, else /usr/bin/chromium) and the .NET 10 SDK.
set -euo pipefail
cd "$(dirname "$0")/.."
export CELLARBOOK_SCREENS; CELLARBOOK_SCREENS=$(realpath -m "${1:-api-docs/screens}")
dotnet build tests/Cellarbook.Browser.Tests -v q --nologo
dotnet run --no-build --project tests/Cellarbook.Browser.Tests -- -class "*PicturesTests"
