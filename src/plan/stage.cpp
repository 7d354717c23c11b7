#include "plan/stage.h"

namespace lensward {

const char* name_of(Origin origin) {
  switch (origin) {
    case Origin::said:
      return "said";
    case Origin::bound:
      return "bound";
    case Origin::settled:
      return "settled";
    case Origin::carried:
      return "carried";
    case Origin::assumed:
      return "assumed";
  }
  return "said";
}

}  // namespace lensward
