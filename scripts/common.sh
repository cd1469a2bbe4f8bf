# Shared by ./sandarac and ./test: finds the tools, installs what ordinary package clients can install, builds what is out of date.
# Sourced, never run.

say() { printf 'sandarac: %s\n' "$*" >&2; }
die() { say "$*"; exit 1; }

require_tools() {
  command -v dotnet >/dev/null || die "the .NET 10 SDK is missing: install it (https://dotnet.microsoft.com) and run this again."
  dotnet --list-sdks | grep -q '^10\.' || die "a .NET 10 SDK is needed; found: $(dotnet --version 2>/dev/null || echo none)."
  command -v npm >/dev/null || die "Node.js 20 or newer with npm is missing: install it (https://nodejs.org) and run this again."
}

# install_debian PACKAGE PROGRAM-OR-FILE WHAT-FOR: through apt when root, else says what to install.
install_debian() {
  if command -v "$2" >/dev/null || [ -e "$2" ]; then return 0; fi
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    say "installing Debian's $1 ($3)"
    { apt-get install -y --no-install-recommends "$1" || { apt-get update && apt-get install -y --no-install-recommends "$1"; }; } >"$build/apt-$1.log" 2>&1 \
      || say "$1 could not be installed (see $build/apt-$1.log): $3 will be skipped."
  else
    say "$1 is missing: $3 will be skipped. Install it with: sudo apt-get install $1"
  fi
}

# out_of_date STAMP PATH...: whether any of the sources is newer than the stamp.
out_of_date() {
  local stamp=$1; shift
  [ ! -e "$stamp" ] || [ -n "$(find "$@" \( -name bin -o -name obj -o -name node_modules -o -path "$root/src/Sandarac.Server/wwwroot/viewer" \) -prune \
    -o -type f -newer "$stamp" -print -quit)" ]
}

build_viewer() {
  out_of_date "$build/viewer.stamp" "$root/viewer" || return 0
  touch "$build/viewer.start"
  if out_of_date "$build/npm.stamp" "$root/viewer/package-lock.json" || [ ! -d "$root/viewer/node_modules" ]; then
    say "fetching the viewer's packages (npm ci)"
    npm ci --prefix "$root/viewer" --no-audit --no-fund --loglevel=error >&2
    touch "$build/npm.stamp"
  fi
  say "building the viewer"
  npm run --silent --prefix "$root/viewer" build >&2
  mv "$build/viewer.start" "$build/viewer.stamp"
}

dotnet_quiet() {
  DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 dotnet "$@"
}

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$root/.build
mkdir -p "$build"
