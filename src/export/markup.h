// What XML and HTML share: words made harmless, and bytes as letters.
#pragma once

#include <string>
#include <string_view>

namespace lensward {

// Words for the text or a double-quoted attribute of XML and HTML. Line ends and tabs become blanks; characters that
// XML 1.0 forbids become the replacement character.
std::string escaped(std::string_view words);

// RFC 4648, section 4.
std::string base64(std::string_view bytes);

}  // namespace lensward
