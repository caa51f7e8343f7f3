#!/bin/sh
# Builds what is handed to people who have no Go, for Debian, Ubuntu and their kin on the processor it runs on:
#
#     sh app/setup.sh && sh app/package.sh [FOLDER]
#
# It leaves keeperbook_VERSION_ARCH.deb in FOLDER, the current one where none is named: the program, its entry in the menu of the
# desktop, its icon, what ties books to it, and the licences of everything in it. Install it with: apt install ./keeperbook_*.deb
#
# From Debian on another processor, with the variables of Go: GOARCH=arm64 makes a .deb for that one, and GOOS=windows GOARCH=amd64
# makes keeperbook_VERSION_windows_amd64.zip: the program twice, and the licences. Both scripts are told:
#
#     export GOOS=windows GOARCH=amd64 && sh app/setup.sh && sh app/package.sh
set -eu

here=$(cd "$(dirname "$0")/.." && pwd)
out=$(cd "${1:-.}" && pwd)
cd "$here"

# toml prints a value of FyneApp.toml, which the version and the identifier have in common with the window.
toml() { sed -n "s/^$1 = \"\{0,1\}\([^\"]*\)\"\{0,1\}\$/\1/p" FyneApp.toml; }

id=$(toml ID)
version=$(toml Version)
os=$(go env GOOS)
arch=$(go env GOARCH)
root=$(mktemp -d)
trap 'rm -rf "$root"' EXIT

# Go switches cgo off where it builds for another machine, and the window needs it. On Windows it draws with OpenGL, which is there
# everywhere, where OpenGL ES is not.
export CGO_ENABLED=1
tags=gles
case "$os-$arch" in
linux-"$(go env GOHOSTARCH)") arch=$(dpkg --print-architecture) ;;
linux-arm64)
	export CC="${CC:-aarch64-linux-gnu-gcc}" PKG_CONFIG_LIBDIR=/usr/lib/aarch64-linux-gnu/pkgconfig:/usr/share/pkgconfig
	;;
windows-amd64)
	export CC="${CC:-x86_64-w64-mingw32-gcc}"
	tags=
	;;
*)
	echo "package: packages are made for Linux, and with GOOS=windows GOARCH=amd64, not for $os on $arch; build there with: go build ./app" >&2
	exit 1
	;;
esac

build() { go build -tags "$tags" -trimpath -ldflags "-s -w $2" -o "$1" ./app; }

# The licences of what is in the program travel with it.
licences() {
	cp assets/licences/* "$1"
	go list -tags "$tags" -deps -f '{{with .Module}}{{if not .Main}}{{.Path}} {{.Dir}}{{end}}{{end}}' ./app | sort -u | while read -r module folder; do
		for file in "$folder"/LICENSE* "$folder"/COPYING* "$folder"/NOTICE*; do
			[ -f "$file" ] || continue
			cp "$file" "$1/$(echo "$module" | tr '/' '-')-$(basename "$file")"
		done
	done
}

# A program for Windows has a window or a console. One of each, and a console finds .com first, so that keeperbook is the
# command there, and a double click on the other opens the window and nothing beside it.
if [ "$os" = windows ]; then
	mkdir -p "$root/keeperbook/licences"
	build "$root/keeperbook/keeperbook.exe" -H=windowsgui
	build "$root/keeperbook/keeperbook.com" ""
	cp LICENSE "$root/keeperbook/LICENSE.txt"
	licences "$root/keeperbook/licences"
	chmod -R u+w "$root/keeperbook"
	zip=$out/keeperbook_${version}_${os}_$arch.zip
	rm -f "$zip"
	(cd "$root" && zip -qr -X "$zip" keeperbook)
	echo "$zip"
	exit 0
fi

mkdir -p "$root/DEBIAN" "$root/usr/bin" "$root/usr/share/applications" "$root/usr/share/mime/packages" \
	"$root/usr/share/icons/hicolor/512x512/apps" "$root/usr/share/icons/hicolor/scalable/apps" "$root/usr/share/doc/keeperbook/licences"
build "$root/usr/bin/keeperbook" ""
cp assets/icon.png "$root/usr/share/icons/hicolor/512x512/apps/$id.png"
cp assets/icon.svg "$root/usr/share/icons/hicolor/scalable/apps/$id.svg"

cat >"$root/usr/share/applications/$id.desktop" <<END
[Desktop Entry]
Type=Application
Name=$(toml Name)
GenericName=$(toml GenericName)
Comment=$(toml Comment)
Exec=keeperbook %f
Icon=$id
Terminal=false
Categories=Science;Engineering;
MimeType=application/x-keeperbook;
END

# A book is a file of SQLite with a mark of our own at byte 68.
cat >"$root/usr/share/mime/packages/$id.xml" <<END
<?xml version="1.0" encoding="UTF-8"?>
<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">
  <mime-type type="application/x-keeperbook">
    <comment>Book of valve spring set-ups</comment>
    <comment xml:lang="de">Buch über Ventilfeder-Aufbauten</comment>
    <comment xml:lang="es">Libro de montajes de resortes de válvula</comment>
    <sub-class-of type="application/vnd.sqlite3"/>
    <glob pattern="*.keeperbook"/>
    <magic priority="60">
      <match type="string" offset="0" value="SQLite format 3\\000">
        <match type="string" offset="68" value="Keep"/>
      </match>
    </magic>
  </mime-type>
</mime-info>
END

cp LICENSE "$root/usr/share/doc/keeperbook/copyright"
licences "$root/usr/share/doc/keeperbook/licences"
chmod 755 "$root"
chmod -R u+w,go-w,a+rX "$root/usr"

cat >"$root/DEBIAN/control" <<END
Package: keeperbook
Version: $version
Architecture: $arch
Maintainer: Keeperbook <keeperbook@localhost>
Installed-Size: $(du -ks "$root/usr" | cut -f1)
Depends: libc6, libgles2, libgl1, libx11-6, libxcursor1, libxrandr2, libxinerama1, libxi6, libxxf86vm1
Recommends: xdg-utils
Section: science
Priority: optional
Description: set-up records of the valve springs of cylinder heads
 Keeps what was measured at each valve, works out the margin to coil bind of
 every coil, and writes a signed set-up sheet.
END
dpkg-deb --root-owner-group --build "$root" "$out/keeperbook_${version}_$arch.deb" >/dev/null
echo "$out/keeperbook_${version}_$arch.deb"
