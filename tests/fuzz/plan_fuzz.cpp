// Any bytes as a scene: see fault_of_planning.
#include "must_hold.h"
#include "properties.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace lensward::test;
  return must_hold(fault_of_planning({{"fuzz.staging", text_of(data, size)}}, "fuzz.staging"));
}
