#include "live/page_files.h"

#include "export/markup.h"

extern "C" {
extern const char lensward_page_html_begin[], lensward_page_html_end[];
extern const char lensward_page_style_begin[], lensward_page_style_end[];
extern const char lensward_page_script_begin[], lensward_page_script_end[];
extern const char lensward_page_preview_style_begin[], lensward_page_preview_style_end[];
extern const char lensward_page_preview_script_begin[], lensward_page_preview_script_end[];
}

namespace lensward {
namespace {

std::string_view between(const char* begin, const char* end) { return {begin, static_cast<std::size_t>(end - begin)}; }

int value_of(char digit) { return digit <= '9' ? digit - '0' : digit - 'a' + 10; }

std::string base64_of_hex(std::string_view hex) {
  std::string bytes;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    bytes += static_cast<char>(16 * value_of(hex[i]) + value_of(hex[i + 1]));
  return base64(bytes);
}

}  // namespace

PageFile page_html() {
  return {between(lensward_page_html_begin, lensward_page_html_end), base64_of_hex(PAGE_HTML_SHA256)};
}
PageFile page_style() {
  return {between(lensward_page_style_begin, lensward_page_style_end), base64_of_hex(PAGE_STYLE_SHA256)};
}
PageFile page_script() {
  return {between(lensward_page_script_begin, lensward_page_script_end), base64_of_hex(PAGE_SCRIPT_SHA256)};
}
PageFile preview_style() {
  return {between(lensward_page_preview_style_begin, lensward_page_preview_style_end),
          base64_of_hex(PAGE_PREVIEW_STYLE_SHA256)};
}
PageFile preview_script() {
  return {between(lensward_page_preview_script_begin, lensward_page_preview_script_end),
          base64_of_hex(PAGE_PREVIEW_SCRIPT_SHA256)};
}

}  // namespace lensward
