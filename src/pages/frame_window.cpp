#include "pages/frame_window.h"

#include "pages/draw.h"
#if __has_include("pages/thumbnail.h")
#include "pages/thumbnail.h"
#endif

namespace lensward {

Group frame_window(const Plan& plan, Moment moment, Vec2 at, Vec2 size, const Target& favoured, const std::string& id) {
  Group window;
#if __has_include("pages/thumbnail.h")
  window.items.push_back({thumbnail(plan, moment, at, size, favoured, id)});
#else
  static_cast<void>(plan), static_cast<void>(moment), static_cast<void>(favoured), static_cast<void>(id);
#endif
  window.items.push_back(shape(rectangle(at, size), {}, pen(Ink::black, plain_line)));
  return window;
}

}  // namespace lensward
