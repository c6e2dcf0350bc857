#!/usr/bin/env bash
# Holds this program's numbers against published ones (fixtures/checkdata) and, where R or SciPy is installed, against
# theirs on data drawn from a seed: method, case, expected, got, agreed digits, source. checks.sh [SEED]
# RESULT checks= failed=
set -euo pipefail
cd "$(dirname "$0")/../.."

dotnet build -c Release -v quiet --nologo tests/Bench.Campaigns
exec dotnet run -c Release --no-build --project tests/Bench.Campaigns -- checks --live "${1:-1}"
