#include "type/font_part.h"

#include <hb-subset.h>

#include <memory>

namespace lensward {
namespace {

struct Destroyer {
  void operator()(hb_blob_t* blob) const { hb_blob_destroy(blob); }
  void operator()(hb_face_t* face) const { hb_face_destroy(face); }
  void operator()(hb_subset_input_t* input) const { hb_subset_input_destroy(input); }
};
template <class Held>
using Owned = std::unique_ptr<Held, Destroyer>;

}  // namespace

std::string font_part(Face face, const std::set<char32_t>& letters) {
  const std::string_view file = font_bytes(face);
  const Owned<hb_blob_t> blob(
      hb_blob_create(file.data(), static_cast<unsigned>(file.size()), HB_MEMORY_MODE_READONLY, nullptr, nullptr));
  const Owned<hb_face_t> whole(hb_face_create(blob.get(), 0));
  const Owned<hb_subset_input_t> wanted(hb_subset_input_create_or_fail());
  if (wanted == nullptr) return {};
  for (const char32_t letter : letters) hb_set_add(hb_subset_input_unicode_set(wanted.get()), letter);
  hb_set_t* features = hb_subset_input_set(wanted.get(), HB_SUBSET_SETS_LAYOUT_FEATURE_TAG);
  hb_set_clear(features);
  for (const hb_tag_t kept : {HB_TAG('k', 'e', 'r', 'n'), HB_TAG('l', 'i', 'g', 'a'), HB_TAG('t', 'n', 'u', 'm'),
                              HB_TAG('m', 'a', 'r', 'k'), HB_TAG('c', 'c', 'm', 'p')})
    hb_set_add(features, kept);
  hb_subset_input_set_flags(wanted.get(), HB_SUBSET_FLAGS_NO_HINTING);
  const Owned<hb_face_t> part(hb_subset_or_fail(whole.get(), wanted.get()));
  if (part == nullptr) return {};
  const Owned<hb_blob_t> made(hb_face_reference_blob(part.get()));
  unsigned length = 0;
  const char* bytes = hb_blob_get_data(made.get(), &length);
  return bytes == nullptr ? std::string() : std::string(bytes, length);
}

}  // namespace lensward
