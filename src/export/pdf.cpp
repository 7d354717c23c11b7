#include <cairo-pdf.h>
#include <fmt/core.h>

#include <algorithm>
#include <set>
#include <utility>

#include "export/export.h"
#include "export/painter.h"

namespace lensward {
namespace {

constexpr double points_per_mm = 72 / 25.4;
constexpr const char* fixed_date = "2000-01-01T00:00:00Z";
// As Cairo writes that date, and as PDF 32000-1 section 7.9.4 wants it; of one length, so that no offset moves.
constexpr std::string_view date_written = "(20000101000000Z)";
constexpr std::string_view date_strict = "(D:200001010000) ";
static_assert(date_written.size() == date_strict.size());

cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void make_dates_strict(std::string& bytes) {
  for (const char* const key : {"/CreationDate ", "/ModDate "}) {
    const std::string written = key + std::string(date_written);
    const std::size_t at = bytes.rfind(written);
    if (at != std::string::npos)
      bytes.replace(at + written.size() - date_written.size(), date_written.size(), date_strict);
  }
}

// Destination names stay within plain ASCII: tag attributes have their own quoting and PDF names their own encoding.
std::string destination_name(const std::string& id) {
  std::string name;
  for (const char c : id) {
    const bool plain =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '/';
    if (plain)
      name += c;
    else
      name += fmt::format("_{:02x}", static_cast<unsigned char>(c));
  }
  return name;
}

using Ids = std::set<std::string>;

void collect(const std::vector<Item>& items, Ids& made, Ids& wanted) {
  for (const Item& item : items) {
    const Group* group = std::get_if<Group>(&item.body);
    if (group == nullptr) continue;
    if (!group->id.empty()) made.insert(group->id);
    if (!group->link_to.empty()) wanted.insert(group->link_to);
    collect(group->items, made, wanted);
  }
}

// The ids that some link leads to and some sheet or group bears. Cairo calls a dangling link an error.
Ids destinations_of(const Book& book) {
  Ids made, wanted;
  for (const Sheet& sheet : book.sheets) {
    if (!sheet.anchor.empty()) made.insert(sheet.anchor);
    collect(sheet.items, made, wanted);
  }
  Ids both;
  std::set_intersection(made.begin(), made.end(), wanted.begin(), wanted.end(), std::inserter(both, both.end()));
  return both;
}

class Tagger : public PaintListener {
 public:
  Tagger(cairo_t* context, Ids destinations) : context_(context), destinations_(std::move(destinations)) {}

  void destination(const std::string& id) {
    if (!destinations_.contains(id) || !set_.insert(id).second) return;
    const std::string attributes = fmt::format("name='{}'", destination_name(id));
    cairo_tag_begin(context_, CAIRO_TAG_DEST, attributes.c_str());
    cairo_tag_end(context_, CAIRO_TAG_DEST);
  }

  void begin(const Group& group) override {
    const char* tag = in_leaf_ > 0 ? nullptr : tag_of(group);
    if (tag != nullptr) cairo_tag_begin(context_, tag, "");
    if (in_leaf_ > 0 || tag != nullptr) ++in_leaf_;
    if (!group.id.empty()) destination(group.id);
    if (!destinations_.contains(group.link_to)) return;
    const std::string attributes = fmt::format("dest='{}'", destination_name(group.link_to));
    cairo_tag_begin(context_, CAIRO_TAG_LINK, attributes.c_str());
  }
  void end(const Group& group) override {
    if (destinations_.contains(group.link_to)) cairo_tag_end(context_, CAIRO_TAG_LINK);
    if (in_leaf_ == 0) return;
    --in_leaf_;
    if (in_leaf_ == 0) cairo_tag_end(context_, tag_of(group));
  }
  void begin(const Text&) override {
    if (in_leaf_ == 0) cairo_tag_begin(context_, "P", "");
  }
  void end(const Text&) override {
    if (in_leaf_ == 0) cairo_tag_end(context_, "P");
  }

 private:
  // A picture is one Figure; a group of nothing but words is one paragraph; others only hold what is in them.
  static const char* tag_of(const Group& group) {
    if (group.figure) return "Figure";
    const bool words =
        !group.items.empty() && std::all_of(group.items.begin(), group.items.end(),
                                            [](const Item& item) { return std::holds_alternative<Text>(item.body); });
    return words ? "P" : nullptr;
  }

  cairo_t* context_;
  Ids destinations_;
  Ids set_;
  int in_leaf_ = 0;
};

void set_metadata(cairo_surface_t* surface, const Book& book) {
  const auto set = [surface](cairo_pdf_metadata_t key, const std::string& words) {
    if (!words.empty()) cairo_pdf_surface_set_metadata(surface, key, words.c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, book.title);
  set(CAIRO_PDF_METADATA_AUTHOR, book.author);
  set(CAIRO_PDF_METADATA_SUBJECT, book.subject);
  set(CAIRO_PDF_METADATA_CREATOR, "lensward");
  set(CAIRO_PDF_METADATA_CREATE_DATE, fixed_date);
  set(CAIRO_PDF_METADATA_MOD_DATE, fixed_date);
}

void paint_sheet(cairo_surface_t* surface, cairo_t* context, const Sheet& sheet, int page, Tagger& tagger) {
  cairo_pdf_surface_set_size(surface, sheet.width * points_per_mm, sheet.height * points_per_mm);
  if (!sheet.label.empty()) cairo_pdf_surface_set_page_label(surface, sheet.label.c_str());
  if (!sheet.title.empty()) {
    const std::string place = fmt::format("page={} pos=[0 0]", page);
    cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, sheet.title.c_str(), place.c_str(),
                                  CAIRO_PDF_OUTLINE_FLAG_OPEN);
  }
  cairo_save(context);
  cairo_scale(context, points_per_mm, points_per_mm);
  // Without a structure tag round it a link leaves a dangling object in the file, and Cairo does not say so.
  if (page == 1) cairo_tag_begin(context, "Document", "");
  cairo_tag_begin(context, "Sect", "");
  tagger.destination(sheet.anchor);
  paint(context, sheet.items, tagger);
  cairo_tag_end(context, "Sect");
}

}  // namespace

std::string to_pdf(const Book& book) {
  static const std::vector<Sheet> one_empty_page(1);
  const std::vector<Sheet>& sheets = book.sheets.empty() ? one_empty_page : book.sheets;
  std::string bytes;
  const CairoSurface surface(cairo_pdf_surface_create_for_stream(append, &bytes, 595, 842));
  require_good(cairo_surface_status(surface.get()));
  set_metadata(surface.get(), book);
  {
    const CairoContext context(cairo_create(surface.get()));
    Tagger tagger(context.get(), destinations_of(book));
    int page = 0;
    for (const Sheet& sheet : sheets) {
      ++page;
      paint_sheet(surface.get(), context.get(), sheet, page, tagger);
      if (page == static_cast<int>(sheets.size())) cairo_tag_end(context.get(), "Document");
      cairo_restore(context.get());
      cairo_show_page(context.get());
    }
    require_good(cairo_status(context.get()));
  }
  cairo_surface_finish(surface.get());
  require_good(cairo_surface_status(surface.get()));
  make_dates_strict(bytes);
  return bytes;
}

}  // namespace lensward
