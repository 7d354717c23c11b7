// The two forms of the language's verbs: with one who does it, and with several.
#pragma once

#include <string_view>

namespace lensward {

// "walks" for "walks" and "walk". A word that is no verb of the language comes back as it is. Without its particle.
std::string_view verb_of_one(std::string_view verb);

// "walk" for "walks" and "walk"; other words as above.
std::string_view verb_of_several(std::string_view verb);

}  // namespace lensward
