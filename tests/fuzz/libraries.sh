#!/bin/sh
# The libraries whose code meets the user's text, built so that the fuzzers see into
# them: from Debian's own sources, below FOLDER. Usage: libraries.sh FOLDER 'CFLAGS'
#
# apt-get is asked with lists of its own, so that the machine's are left alone. Of
# libharu the original source alone is taken: what Debian changed in it is not needed to
# see a wrong access.
set -eu
mkdir -p "$1/lists/partial"
cd "$1"
key=$(sed -n 's/^Signed-By: *//p' /etc/apt/sources.list.d/debian.sources | head -n 1)
site=$(sed -n 's/^URIs: *//p' /etc/apt/sources.list.d/debian.sources | head -n 1)
echo "deb-src [signed-by=$key] $site bookworm main" > sources.list
ask="-q -o Dir::Etc::sourcelist=$PWD/sources.list -o Dir::Etc::sourceparts=/dev/null
     -o Dir::State::Lists=$PWD/lists -o APT::Sandbox::User=root"
apt-get $ask update
apt-get $ask source --download-only cmark libyaml
apt-get $ask source --tar-only libharu

unpack() { # NAME
    rm -rf "$1" && mkdir "$1" && tar xf "$1"_*.orig.tar.* -C "$1" --strip-components=1
    for changes in "$1"_*.debian.tar.*; do
        [ -e "$changes" ] || continue
        tar xf "$changes" -C "$1"
        sed 's/#.*//' "$1/debian/patches/series" 2> /dev/null | while read -r patch; do
            [ -z "$patch" ] || (cd "$1" && patch -s -p1 < "debian/patches/$patch")
        done
    done
}

build() { # NAME CMAKE-OPTION...
    name=$1
    shift
    unpack "$name"
    cmake -S "$name" -B "$name/made" -DCMAKE_C_COMPILER=clang -DCMAKE_BUILD_TYPE=None \
        -DCMAKE_C_FLAGS="$flags -I$PWD/$name/include" -DBUILD_SHARED_LIBS=OFF "$@" > log
    make -C "$name/made" > log 2>&1 || { tail log; exit 1; }
    find "$name/made" -name '*.a' -exec cp {} . \;
}

flags=$2
build cmark -DCMARK_SHARED=OFF -DCMARK_TESTS=OFF
build libyaml -DBUILD_TESTING=OFF
build libharu -DLIBHPDF_SHARED=OFF
ls ./*.a
