#include "cli/picture.h"

#include "cli/undrawn_text.h"
#include "export/export.h"

namespace lensward {
namespace {

constexpr double picture_dots_per_inch = 200;

}  // namespace

std::string format_of(const PictureOptions& options) {
  if (!options.format.empty()) return options.format;
  for (const char* format : {"svg", "png", "pdf"}) {
    if (options.output.ends_with(std::string(".") + format)) return format;
  }
  throw CannotRun("cannot tell the format from `" + options.output +
                  "`: end its name in .svg, .png or .pdf, or say --format");
}

void put_picture(const Run& run, const Sheet& sheet, const PictureOptions& options, Surroundings& around) {
  for (const std::string& line : undrawn_text(run, {sheet})) tell(line);
  const std::string format = format_of(options);
  if (format == "svg") return put(options.output, to_svg(sheet), around);
  if (format == "png") return put(options.output, to_png(sheet, picture_dots_per_inch), around);
  Book book;
  book.title = sheet.title;
  book.sheets = {sheet};
  put(options.output, to_pdf(book), around);
}

}  // namespace lensward
