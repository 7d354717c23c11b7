#include "source/spelling_of_names.h"

#include <unicode/bytestream.h>
#include <unicode/casemap.h>
#include <unicode/normalizer2.h>
#include <unicode/uspoof.h>

#include <cstdint>
#include <memory>

namespace lensward {
namespace {

std::string folded(std::string_view text) {
  std::string result;
  icu::StringByteSink<std::string> sink(&result);
  UErrorCode status = U_ZERO_ERROR;
  icu::CaseMap::utf8Fold(0, icu::StringPiece(text.data(), static_cast<std::int32_t>(text.size())), sink, nullptr,
                         status);
  return U_SUCCESS(status) ? result : std::string(text);
}

std::string skeleton(const USpoofChecker* checker, const std::string& text) {
  std::string result(text.size() * 4 + 16, '\0');
  UErrorCode status = U_ZERO_ERROR;
  const std::int32_t length = uspoof_getSkeletonUTF8(checker, 0, text.data(), static_cast<std::int32_t>(text.size()),
                                                     result.data(), static_cast<std::int32_t>(result.size()), &status);
  if (U_FAILURE(status)) return text;
  result.resize(static_cast<std::size_t>(length));
  return result;
}

}  // namespace

std::string composed_form(std::string_view utf8) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::Normalizer2* nfc = icu::Normalizer2::getNFCInstance(status);
  if (U_FAILURE(status)) return std::string(utf8);
  std::string result;
  icu::StringByteSink<std::string> sink(&result);
  nfc->normalizeUTF8(0, icu::StringPiece(utf8.data(), static_cast<std::int32_t>(utf8.size())), sink, nullptr, status);
  return U_SUCCESS(status) ? result : std::string(utf8);
}

std::string looks_of(std::string_view name) {
  UErrorCode status = U_ZERO_ERROR;
  const std::unique_ptr<USpoofChecker, void (*)(USpoofChecker*)> checker(uspoof_open(&status), uspoof_close);
  if (U_FAILURE(status)) return folded(name);
  // Letters that are drawn alike differ once folded (I and l), and the other way about, so both are taken.
  return skeleton(checker.get(), folded(skeleton(checker.get(), std::string(name))));
}

}  // namespace lensward
