// Any bytes: see fault_of_tidying.
#include "must_hold.h"
#include "properties.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace lensward::test;
  return must_hold(fault_of_tidying(text_of(data, size)));
}
