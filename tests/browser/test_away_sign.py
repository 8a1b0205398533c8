"""The sign: its pictures show what is drawn; the manifest's icons have the sizes that it names."""

from __future__ import annotations

import io
import json
import urllib.request

from PIL import Image, ImageChops, ImageStat

from dashboard.away.sign import SIZES, drawn


def asked(served, path):
    with urllib.request.urlopen(served.address + path) as answer:
        return answer.headers["Content-Type"], answer.read()


def test_pictures_are_the_drawing_and_the_manifest_names_them(empty, chromium):
    kind, raw = asked(empty, "/croftbook.webmanifest")
    manifest = json.loads(raw)
    assert kind.startswith("application/manifest+json")
    assert manifest["start_url"] == manifest["scope"] == "/"
    assert {one["purpose"] for one in manifest["icons"]} == {"any", "maskable"}
    for one in manifest["icons"]:
        kind, raw = asked(empty, one["src"])
        assert kind == "image/png"
        assert "x".join(map(str, Image.open(io.BytesIO(raw)).size)) == one["sizes"]
    for name, (side, share) in SIZES.items():
        page = chromium.new_page(viewport={"width": side, "height": side})
        cut = "mask" in name or "touch" in name
        page.set_content(
            f"<style>*{{margin:0}}svg{{display:block;width:{side}px}}</style>{drawn(share, round=not cut)}"
        )
        now = Image.open(io.BytesIO(page.screenshot())).convert("L")
        page.close()
        there = Image.open(io.BytesIO(asked(empty, f"/sign/{name}")[1])).convert("RGBA")
        ground = Image.new("RGBA", there.size, "white")
        ground.alpha_composite(there)
        assert ImageStat.Stat(ImageChops.difference(now, ground.convert("L"))).mean[0] < 2, name
