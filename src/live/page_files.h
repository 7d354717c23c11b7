// The hand-written files of the page: its frame of HTML, its style and its script; and what the page has besides while
// the scene is being written.
#pragma once

#include <string>
#include <string_view>

namespace lensward {

struct PageFile {
  std::string_view bytes;
  std::string digest;  // SHA-256, in the letters of a Content-Security-Policy (W3C CSP 3, 2.3.1)
};

PageFile page_html();
PageFile page_style();
PageFile page_script();
PageFile preview_style();
PageFile preview_script();

}  // namespace lensward
