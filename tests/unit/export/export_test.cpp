#include "export/export.h"

#include <catch2/catch.hpp>

#include "export/hatch.h"
#include "export/markup.h"
#include "export/palette.h"

using namespace lensward;

namespace {

Shape rectangle(Vec2 at, Vec2 size, Fill fill = {}) {
  using Kind = PathStep::Kind;
  Shape shape;
  shape.fill = fill;
  shape.steps = {{Kind::move, at, {}, {}},
                 {Kind::line, at + Vec2{size.x, 0}, {}, {}},
                 {Kind::line, at + size, {}, {}},
                 {Kind::line, at + Vec2{0, size.y}, {}, {}},
                 {Kind::close, {}, {}, {}}};
  return shape;
}

Sheet sample_sheet() {
  Sheet sheet;
  sheet.width = 100;
  sheet.height = 60;
  sheet.title = "A table & a lamp";
  sheet.anchor = "top";
  sheet.label = "i";
  Fill hatch;
  hatch.ink = Ink::mid;
  hatch.hatched = true;
  Group figure;
  figure.id = "set/table";
  figure.title = "Table";
  figure.description = "A table with a \"lamp\" < 1 m high";
  figure.figure = true;
  figure.line = Span{0, 6, 11};
  figure.items.push_back({rectangle({10, 10}, {30, 20}, hatch)});
  sheet.items.push_back({figure});
  sheet.items.push_back({Text{{10, 45}, "Żółw fi office AVA", Face::serif, 6, Ink::black, Text::Anchor::left, 0}});
  Group link;
  link.link_to = "top";
  link.items.push_back({Text{{90, 55}, "to the top", Face::sans, 3, Ink::accent, Text::Anchor::right, 0}});
  sheet.items.push_back({link});
  Picture picture;
  picture.at = {60, 10};
  picture.size = {20, 10};
  picture.width = 2;
  picture.height = 1;
  picture.grey = {0, 200};
  picture.alpha = {255, 128};
  sheet.items.push_back({picture});
  return sheet;
}

bool contains(const std::string& bytes, const std::string& part) { return bytes.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("the same book gives the same bytes") {
  const Book book{"Sample", "nobody", "a test", {sample_sheet(), sample_sheet()}};
  CHECK(to_pdf(book) == to_pdf(book));
  CHECK(to_svg(sample_sheet()) == to_svg(sample_sheet()));
  CHECK(to_png(sample_sheet(), 100) == to_png(sample_sheet(), 100));
}

TEST_CASE("PDF dates are in the form the standard asks for") {
  // PDF 32000-1:2008, 7.9.4: "(D:YYYYMMDDHHmmSSOHH'mm)", everything after the year optional.
  const std::string pdf = to_pdf({"Sample", "", "", {sample_sheet()}});
  CHECK(contains(pdf, "/CreationDate (D:200001010000)"));
  CHECK(contains(pdf, "/ModDate (D:200001010000)"));
}

TEST_CASE("an empty book and a dangling link still give a PDF") {
  CHECK(to_pdf({}).substr(0, 5) == "%PDF-");
  Sheet sheet = sample_sheet();
  Group link;
  link.link_to = "nowhere";
  link.items.push_back({Text{{10, 10}, "away", Face::sans, 3, Ink::black, Text::Anchor::left, 0}});
  sheet.items.push_back({link});
  CHECK_FALSE(contains(to_pdf({"", "", "", {sheet}}), "nowhere"));
}

TEST_CASE("SVG keeps ids, titles, descriptions and lines") {
  SourceSet sources;
  sources.add(SourceFile("scene.staging", "first\nTable\n"));
  const std::string svg = to_svg(sample_sheet(), &sources);
  CHECK(contains(svg, "<g id=\"set.table\" data-line=\"2\" role=\"img\">"));
  CHECK(contains(svg, "<desc>A table with a &quot;lamp&quot; &lt; 1 m high</desc>"));
  CHECK(contains(svg, "<title>A table &amp; a lamp</title>"));
  CHECK_FALSE(contains(to_svg(sample_sheet()), "data-line"));
}

TEST_CASE("an id used twice is told apart") {
  Sheet sheet = sample_sheet();
  sheet.items.push_back(sheet.items[0]);
  CHECK(contains(to_svg(sheet), "id=\"set.table.2\""));
}

TEST_CASE("PNG has the size asked for, and a limit") {
  const auto width_of_png = [](const std::string& png) {
    // PNG (ISO/IEC 15948) 11.2.2: the width stands in bytes 16 to 19, big end first.
    int width = 0;
    for (std::size_t i = 16; i < 20; ++i) width = width * 256 + static_cast<unsigned char>(png[i]);
    return width;
  };
  CHECK(width_of_png(to_png(sample_sheet(), 254)) == 1000);
  Sheet tall = sample_sheet();
  tall.height = 4000;
  tall.width = 10;
  CHECK(width_of_png(to_png(tall, 2540)) == 50);
}

TEST_CASE("hatching covers the whole shape at its gap and keeps the phase of the page") {
  Fill fill;
  fill.hatched = true;
  fill.hatch_angle = 0;
  fill.hatch_gap = 2;
  const auto lines = hatch_lines(fill, {{1, 1}, {11, 9}});
  REQUIRE(lines.size() == 4);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    CHECK(lines[i].from.y == Approx(2 + 2 * static_cast<double>(i)));
    CHECK(lines[i].from.x == Approx(1));
    CHECK(lines[i].to.x == Approx(11));
  }
  fill.hatch_gap = 0;
  CHECK(hatch_lines(fill, {{0, 0}, {10, 1e6}}).size() == 4000);
}

TEST_CASE("inks read on paper") {
  // WCAG 2.2, 1.4.3 (4.5:1 for text) and 1.4.11 (3:1 for graphics); black on white is 21:1 by its definition.
  for (const Ink ink : {Ink::black, Ink::dark, Ink::mid, Ink::accent}) CHECK(contrast_on_paper(ink) >= 4.5);
  CHECK(contrast_on_paper(Ink::light) >= 3.0);
  CHECK(contrast_on_paper(Ink::paper) == Approx(1));
}

TEST_CASE("CSV quotes what RFC 4180 says must be quoted, and ends lines as it says") {
  const CrewTable table{
      "t", "T", "", {{"what", ""}, {"far_m", ""}}, {{std::string("a \"b\", c\nd"), Metres{1.5}}, {{}, {}}}};
  CHECK(to_csv(table) == "what,far_m\r\n\"a \"\"b\"\", c\nd\",1.5\r\n,\r\n");
}

TEST_CASE("base 64 is that of RFC 4648, section 10") {
  CHECK(base64("").empty());
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foobar") == "Zm9vYmFy");
  CHECK(base64("\xff\xfe\xfd") == "//79");
}

TEST_CASE("words are made harmless for XML and HTML") {
  CHECK(escaped("a<b> & \"c\"\td\x01") == "a&lt;b&gt; &amp; &quot;c&quot; d\uFFFD");
}

TEST_CASE("drawings of one document share their letters, and no id stands twice") {
  const auto drawing = [] { return sample_sheet().items; };
  const SvgParts parts = to_svg_parts({drawing(), drawing()}, "p-");
  REQUIRE(parts.drawings.size() == 2);
  CHECK(contains(parts.drawings[0], "id=\"p-set.table\""));
  CHECK(contains(parts.drawings[1], "id=\"p-set.table.2\""));
  CHECK(contains(parts.definitions, "id=\"p-glyph-"));
  const std::size_t first = parts.definitions.find("id=\"p-glyph-");
  const std::string id = parts.definitions.substr(first, parts.definitions.find('"', first + 4) + 1 - first);
  CHECK(parts.definitions.find(id, first + 1) == std::string::npos);
}

TEST_CASE("a small PNG has the size asked for, sixteen inks, and says the same each time") {
  Sheet sheet = sample_sheet();
  const std::string png = to_small_png(sheet, 200);
  CHECK(png == to_small_png(sheet, 200));
  CHECK(png.starts_with("\x89PNG\r\n\x1a\n"));
  // PNG, 11.2.1: width and height, four bits a pixel, by palette.
  CHECK(png.substr(16, 10) == std::string("\0\0\0\xc8\0\0\0\x78\x04\x03", 10));
  CHECK(contains(png, "PLTE"));
  CHECK(png.size() < to_png(sheet, 200 / sheet.width * 25.4).size() / 2);
}
