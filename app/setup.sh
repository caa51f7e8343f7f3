#!/bin/sh
# Installs the system packages that the window is built and run with, where they are missing:
#
#     sh app/setup.sh && go run -tags gles ./app
#
# Debian and Ubuntu: by apt, with sudo unless run by root. Elsewhere it says what to install. With
# CI=true it also installs the outside programs that the tests hold the program against. With
# GOOS=windows, or with GOARCH=arm64 elsewhere than on such a processor, it installs what package.sh
# builds for these with. Everything that needs no window builds with Go alone (CGO_ENABLED=0) and needs none of this.
set -eu

libraries="libgl-dev libx11-dev libxcursor-dev libxrandr-dev libxinerama-dev libxi-dev libxxf86vm-dev"
build="gcc libc6-dev pkg-config $libraries"
run="libgl1 libxcursor1 libxrandr2 libxinerama1 libxi6 libxxf86vm1"
# PDF readers, a spreadsheet, a drawer of SVG and what they trust, a checker of archived PDF and what it runs on, a display without a screen, a hand for it, pictures of it, its clipboard, a solver, a tracer.
tests="poppler-utils libreoffice-calc-nogui librsvg2-bin libnss3-tools qpdf openssl zbar-tools default-jre-headless libpdfbox2-java libactivation-java libjaxb-api-java xvfb xdotool imagemagick xclip coinor-cbc strace"

# Where there is no apt, nothing is installed and nothing has failed: whoever builds there has other
# names for the same things, or has them already.
if ! command -v apt-get >/dev/null 2>&1 || ! command -v dpkg-query >/dev/null 2>&1; then
	case "$(uname -s)" in
	Darwin)
		xcode-select -p >/dev/null 2>&1 ||
			echo "setup: to build the window, install Apple's command line tools with: xcode-select --install" >&2
		;;
	Linux | *BSD)
		pkg-config --exists gl x11 xcursor xrandr xinerama xi xxf86vm 2>/dev/null ||
			echo "setup: there is no apt here; to build the window, install a C compiler, pkg-config and the development files of GL, X11, Xcursor, Xrandr, Xinerama, Xi and Xxf86vm" >&2
		;;
	*)
		command -v gcc >/dev/null 2>&1 ||
			echo "setup: to build the window, install a C compiler such as gcc and put it on the PATH" >&2
		;;
	esac
	exit 0
fi

host=$(dpkg --print-architecture)
foreign=
case "${GOOS:-linux}-${GOARCH:-$host}" in
linux-"$host")
	want="$build $run"
	if [ "${CI:-}" = true ]; then
		want="$want $tests"
	fi
	;;
windows-amd64) want="gcc-mingw-w64-x86-64-win32 zip" ;;
linux-arm64)
	foreign=arm64
	want="gcc-aarch64-linux-gnu libc6-dev-arm64-cross pkg-config"
	for package in $libraries; do
		want="$want $package:arm64"
	done
	;;
*)
	echo "setup: the window is built from here for this processor, with GOOS=windows GOARCH=amd64 or with GOARCH=arm64, not for ${GOOS:-linux} on ${GOARCH:-$host}; the commands alone are built with CGO_ENABLED=0 and need nothing" >&2
	exit 1
	;;
esac

# missing prints which of its arguments are not installed, in one question for all of them. A package of
# another processor does not stand for the one of this.
missing() {
	have=" $(dpkg-query -W -f='${db:Status-Status}/${Package}:${Architecture} ' "$@" 2>/dev/null || true)"
	for package in "$@"; do
		case "$have" in
		*" installed/$package "* | *" installed/$package:$host "* | *" installed/$package:all "*) ;;
		*) printf '%s ' "$package" ;;
		esac
	done
}

# The lists are words, so they are not quoted from here on.
# shellcheck disable=SC2086
need=$(missing $want)
need=${need% }
[ -n "$need" ] || exit 0

root=
if [ "$(id -u)" -ne 0 ]; then
	if ! command -v sudo >/dev/null 2>&1; then
		echo "setup: these packages are missing, and installing them takes root or sudo: $need" >&2
		exit 1
	fi
	root=sudo
fi

echo "setup: installing $need" >&2
apt() { $root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o Dpkg::Use-Pty=0 "$@" </dev/null >/dev/null; }

if [ -n "$foreign" ] && ! dpkg --print-foreign-architectures | grep -qx "$foreign"; then
	$root dpkg --add-architecture "$foreign"
fi
# A list of packages that cannot be refreshed may still do, so only the installation decides.
apt update || echo "setup: the package lists could not be refreshed; trying with the ones that are here" >&2
# shellcheck disable=SC2086
if ! apt install -y --no-install-recommends $need; then
	echo "setup: apt could not install $need; see its message above, put it right and run this again" >&2
	exit 1
fi
# shellcheck disable=SC2086
need=$(missing $need)
need=${need% }
if [ -n "$need" ]; then
	echo "setup: apt was content, but these packages are still missing: $need" >&2
	exit 1
fi
