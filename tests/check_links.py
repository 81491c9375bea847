#!/usr/bin/env python3
"""Follows every link and fragment of the site; nothing may lead outside its folder
but links that the words themselves name, and no page may load anything from there.

Usage: check_links.py OUT
"""
import glob
import html.parser
import os
import sys
import urllib.parse

import tally

LOADERS = {"script": "src", "img": "src", "link": "href", "iframe": "src", "object": "data",
           "source": "src", "use": "href", "image": "href"}


class Page(html.parser.HTMLParser):
    def __init__(self, path):
        super().__init__()
        self.ids, self.links, self.loads = set(), [], []
        self.feed(open(path, encoding="utf-8").read())

    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        if "id" in attributes:
            if attributes["id"] in self.ids:
                self.links.append("#an-id-given-twice-" + attributes["id"])
            self.ids.add(attributes["id"])
        if tag == "a" and "href" in attributes:
            self.links.append(attributes["href"])
        if tag in LOADERS and LOADERS[tag] in attributes:
            self.loads.append(attributes[LOADERS[tag]])


def fault_of(pages, name, link):
    """What is wrong with a link; None where it leads somewhere."""
    parts = urllib.parse.urlsplit(link)
    if parts.scheme:
        return None if parts.scheme in ("https", "http", "mailto") else "a scheme that runs things"
    target = parts.path or name
    if target not in pages:
        return None if os.path.exists(os.path.join(site, target)) and not parts.fragment else "no page"
    if parts.fragment and parts.fragment not in pages[target].ids:
        return "no such place in the page"
    return None


site = os.path.join(sys.argv[1], "site")
pages = {os.path.basename(path): Page(path) for path in glob.glob(site + "/*.html")}
for name, page in sorted(pages.items()):
    for link in page.links:
        fault = fault_of(pages, name, link)
        tally.check(not fault, f"{name}: {link}: {fault}")
    for load in page.loads:
        tally.check(not urllib.parse.urlsplit(load).scheme and os.path.exists(os.path.join(site, load)),
                    f"{name} loads {load}")
tally.check(tally.looked >= 100, f"only {tally.looked} links")
sys.exit(tally.end(f"{tally.looked} links of {len(pages)} pages followed"))
