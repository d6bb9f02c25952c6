#!/usr/bin/env bash
# The sound of a seeded drill, measured from outside: as long as its spoken parts and its silences, to 50
# milliseconds. espeak-ng speaks, sox measures; where they are not there and cannot be installed, that is
# said and nothing is measured.
set -euo pipefail
cd "$(dirname "$0")/../.."

if ! command -v espeak-ng >/dev/null || ! command -v soxi >/dev/null; then
    if ! { apt-get update && apt-get install -y espeak-ng sox; } >/dev/null 2>&1; then
        echo "NOT MEASURED: espeak-ng and sox are not here and cannot be installed"
        exit 0
    fi
fi

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export SANSVOIR_DATA=$folder/data
program=${CARGO_TARGET_DIR:-target}/debug/sansvoir
printf 'sheet_why = true\n' >"$folder/config.toml"
export SANSVOIR_CONFIG=$folder/config.toml
drill=(drill color,name,distance --count 6 --seed 11 --think 1.23)

"$program" sheet --format script "${drill[@]}" >"$folder/script.txt"
"$program" sheet --format wav --out "$folder/drill.wav" "${drill[@]}"

# The same sentences one by one, each measured alone.
wanted=0
while IFS= read -r line; do
    case $line in
        "") continue ;;
        "[silence of "*) seconds=${line#"[silence of "} && seconds=${seconds%% *} ;;
        *)
            printf '%s\n' "$line" | espeak-ng --stdin -w "$folder/one.wav"
            seconds=$(soxi -D "$folder/one.wav")
            ;;
    esac
    wanted=$(awk -v sum="$wanted" -v more="$seconds" 'BEGIN { printf "%.6f", sum + more }')
done <"$folder/script.txt"

measured=$(soxi -D "$folder/drill.wav")
awk -v wanted="$wanted" -v measured="$measured" 'BEGIN {
    apart = measured - wanted
    printf "spoken parts and silences: %.3f s; the file: %.3f s; apart: %.3f s\n", wanted, measured, apart
    exit !(apart < 0.05 && apart > -0.05)
}'

# 16-bit mono, and a chapter for each question.
test "$(soxi -c "$folder/drill.wav") $(soxi -b "$folder/drill.wav")" = "1 16"
test "$(grep -c Question "$folder/drill.txt")" = 6
