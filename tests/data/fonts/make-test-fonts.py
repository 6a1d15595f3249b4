"""Makes the two test fonts beside it, with fontTools 4.66.1: python make-test-fonts.py. Outlines drawn for this purpose."""

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import newTable
from fontTools.ttLib.tables._k_e_r_n import KernTable_format_0
from fontTools.feaLib.builder import addOpenTypeFeaturesFromString


def polygon(pen, *points):
    pen.moveTo(points[0])
    for point in points[1:]:
        pen.lineTo(point)
    pen.closePath()


def box(pen, x0, y0, x1, y1, clockwise=True):
    corners = [(x0, y0), (x0, y1), (x1, y1), (x1, y0)]
    polygon(pen, *(corners if clockwise else corners[::-1]))


def truetype():
    """unitsPerEm 1000; no GPOS but a table kern; OS/2 without cap height; cmap of formats 4 and 12."""
    pens = {}

    def glyph(name):
        pens[name] = TTGlyphPen(pens)
        return pens[name]

    box(glyph(".notdef"), 0, 0, 500, 700)
    glyph("space")
    glyph("empty")
    h = glyph("H")  # one contour of 12 corners, 700 high
    polygon(h, (50, 0), (50, 700), (150, 700), (150, 400), (450, 400), (450, 700), (550, 700), (550, 0), (450, 0), (450, 300), (150, 300), (150, 0))
    o = glyph("O")  # a ring of off-curve points only: eight quadratics of a rounded square, and a square hole
    o.qCurveTo((0, 0), (0, 600), (600, 600), (600, 0), None)
    o.closePath()
    box(o, 200, 200, 400, 400, clockwise=False)
    x = glyph("X")  # two bars laid across each other: contours overlap
    box(x, 0, 250, 600, 350)
    box(x, 250, 0, 350, 600)
    p = glyph("P")  # a square inside a square, both run the same way: nonzero fills it
    box(p, 0, 0, 600, 600)
    box(p, 200, 200, 400, 400)
    box(glyph("L"), 100, 0, 300, 700)  # its left bearing says 0: it is drawn 100 further left
    box(glyph("acute"), 0, 500, 100, 600)
    a = glyph("Aacute")  # H, and the acute half as large again, moved by (200, 50)
    a.addComponent("H", (1, 0, 0, 1, 0, 0))
    a.addComponent("acute", (1.5, 0, 0, 1.5, 200, 50))
    for name in ["alef", "bet", "beh", "smile", "one", "two", "period"]:
        box(glyph(name), 50, 0, 250 + 50 * len(name), 400)

    order = list(pens)
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap(
        {
            0x20: "space", 0x51: "empty", 0x48: "H", 0x4F: "O", 0x58: "X", 0x50: "P", 0x4C: "L", 0xC1: "Aacute", 0x301: "acute",
            0x5D0: "alef", 0x5D1: "bet", 0x628: "beh", 0x1F600: "smile", 0x31: "one", 0x32: "two", 0x2E: "period",
        }
    )  # fmt: skip
    glyphs = {name: pen.glyph() for name, pen in pens.items()}
    builder.setupGlyf(glyphs)
    builder.setupHorizontalMetrics({name: (650, 0 if name == "L" else getattr(glyphs[name], "xMin", 0)) for name in order})
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupNameTable({"familyName": "Gramil Strokes", "styleName": "Regular", "fullName": "Gramil Strokes"})
    builder.setupOS2(version=1)
    builder.setupPost(keepGlyphNames=False)
    table = KernTable_format_0()
    table.coverage, table.version, table.format, table.tupleIndex, table.apple = 1, 0, 0, None, False
    table.kernTable = {("H", "O"): -40, ("O", "H"): -30, ("alef", "bet"): -50, ("H", "H"): 7}
    kern = newTable("kern")
    kern.version, kern.kernTables = 0, [table]
    builder.font["kern"] = kern
    builder.font["head"].created = builder.font["head"].modified = 0
    builder.save("strokes.ttf")


def opentype():
    """unitsPerEm 2000, CFF outlines; kerning in extension lookups, by pairs and by classes."""
    pens = {}

    def glyph(name):
        pens[name] = T2CharStringPen(1000, {})
        return pens[name]

    box(glyph(".notdef"), 0, 0, 500, 700)
    glyph("space")
    polygon(glyph("A"), (0, 0), (400, 1400), (600, 1400), (1000, 0))
    polygon(glyph("V"), (0, 1400), (400, 0), (600, 0), (1000, 1400))
    o = glyph("O")  # a circle of radius 700 about (500, 700) in four cubics, and a square hole
    k = 387
    o.moveTo((1200, 700))
    o.curveTo((1200, 700 + k), (500 + k, 1400), (500, 1400))
    o.curveTo((500 - k, 1400), (-200, 700 + k), (-200, 700))
    o.curveTo((-200, 700 - k), (500 - k, 0), (500, 0))
    o.curveTo((500 + k, 0), (1200, 700 - k), (1200, 700))
    o.closePath()
    box(o, 300, 500, 700, 900)

    order = list(pens)
    builder = FontBuilder(2000, isTTF=False)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap({0x20: "space", 0x41: "A", 0x56: "V", 0x4F: "O"})
    builder.setupCFF("GramilArcs", {"FullName": "Gramil Arcs"}, {name: pen.getCharString() for name, pen in pens.items()}, {})
    builder.setupHorizontalMetrics({name: (1000, 0) for name in order})
    builder.setupHorizontalHeader(ascent=1600, descent=-400)
    builder.setupNameTable({"familyName": "Gramil Arcs", "styleName": "Regular", "fullName": "Gramil Arcs"})
    builder.setupOS2(version=4, sCapHeight=1400, sxHeight=900)
    builder.setupPost(keepGlyphNames=False)
    addOpenTypeFeaturesFromString(
        builder.font,
        """
        languagesystem DFLT dflt;
        languagesystem latn dflt;
        lookup pairs useExtension { pos A V -160; } pairs;
        lookup classes useExtension { pos [A V] [O] -60; } classes;
        feature kern { lookup pairs; lookup classes; } kern;
        """,
    )
    builder.font["head"].created = builder.font["head"].modified = 0
    builder.save("strokes.otf")


truetype()
opentype()
