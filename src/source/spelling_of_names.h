// When two names are the same to the eye.
#pragma once

#include <string>
#include <string_view>

namespace lensward {

// The composed form (NFC), in which names of files are compared; text that is not UTF-8 comes back as it is.
std::string composed_form(std::string_view utf8);

// What the name looks like: names that differ only by case, or by letters that are drawn alike, have the same looks
// (ICU's confusables, Unicode Technical Standard #39).
std::string looks_of(std::string_view name);

}  // namespace lensward
