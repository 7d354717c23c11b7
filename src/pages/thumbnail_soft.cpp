#include "pages/thumbnail_soft.h"

#include <algorithm>
#include <cmath>

namespace lensward {
namespace {

// How the inks look in grey, 0 black .. 1 paper.
float grey_of(Ink ink) {
  switch (ink) {
    case Ink::black:
      return 0.10F;
    case Ink::dark:
      return 0.26F;
    case Ink::mid:
      return 0.44F;
    case Ink::light:
      return 0.57F;
    case Ink::faint:
      return 0.81F;
    case Ink::none:
    case Ink::paper:
    case Ink::accent:
      break;
  }
  return 1;
}

// A coarse grid over part of the picture; grey is kept multiplied by alpha until it is blurred.
struct Layer {
  int width = 0, height = 0;
  std::vector<float> grey, alpha;
};

struct PixelPart {
  int left = 0, top = 0, right = 0, bottom = 0;
};

class Blurrer {
 public:
  Blurrer(const ScenePicture& picture, PersonId person, const std::function<Ink(Material)>& colour)
      : picture_(picture), person_(person), colour_(colour) {}

  // Null when the pixel shows something else.
  const Solid* own(int x, int y) const {
    if (x < 0 || y < 0 || x >= picture_.width || y >= picture_.height) return nullptr;
    const std::int32_t shown = picture_.solid_at(x, y);
    if (shown < 0) return nullptr;
    const auto index = static_cast<std::size_t>(shown);
    const Target& owner = picture_.scene.owner[index];
    const bool mine = owner.kind == Target::Kind::person && owner.index == person_.index;
    return mine ? &picture_.scene.solids[index] : nullptr;
  }

  PixelPart bounds() const {
    PixelPart part{picture_.width, picture_.height, 0, 0};
    for (int y = 0; y < picture_.height; ++y) {
      for (int x = 0; x < picture_.width; ++x) {
        if (own(x, y) == nullptr) continue;
        part = {std::min(part.left, x), std::min(part.top, y), std::max(part.right, x + 1),
                std::max(part.bottom, y + 1)};
      }
    }
    return part;
  }

  float grey(int x, int y, const Solid& solid) const {
    const auto edge = [&](int other_x, int other_y) {
      const Solid* other = own(other_x, other_y);
      const bool inside = other_x >= 0 && other_y >= 0 && other_x < picture_.width && other_y < picture_.height;
      return inside && (other == nullptr || other->material != solid.material);
    };
    constexpr int ink = 2;
    if (edge(x + ink, y) || edge(x - ink, y) || edge(x, y + ink) || edge(x, y - ink)) return grey_of(Ink::black);
    const float light = picture_.light[picture_.pixel(x, y)];
    const float tone = light < 0.15F ? 0.70F : light < 0.48F ? 0.84F : 1.0F;
    return grey_of(colour_(solid.material)) * tone;
  }

  // Means of cells `step` pixels wide. Pixels beyond the frame count as more of what stands at its edge, so that nobody
  // fades out along it.
  Layer layer(PixelPart part, int step) const {
    Layer layer;
    layer.width = (part.right - part.left + step - 1) / step;
    layer.height = (part.bottom - part.top + step - 1) / step;
    for (int cy = 0; cy < layer.height; ++cy) {
      for (int cx = 0; cx < layer.width; ++cx) {
        float sum = 0, count = 0;
        for (int dy = 0; dy < step; ++dy) {
          for (int dx = 0; dx < step; ++dx) {
            const int x = std::clamp(part.left + cx * step + dx, 0, picture_.width - 1);
            const int y = std::clamp(part.top + cy * step + dy, 0, picture_.height - 1);
            if (const Solid* solid = own(x, y)) {
              sum += grey(x, y, *solid);
              count += 1;
            }
          }
        }
        const auto cells = static_cast<float>(step * step);
        layer.grey.push_back(sum / cells);
        layer.alpha.push_back(count / cells);
      }
    }
    return layer;
  }

 private:
  const ScenePicture& picture_;
  PersonId person_;
  const std::function<Ink(Material)>& colour_;
};

void blur_rows(std::vector<float>& values, int width, int height, int reach, bool across) {
  std::vector<float> from = values;
  const int count = across ? width : height, lines = across ? height : width;
  const auto at = [&](int line, int i) {
    const int x = across ? i : line, y = across ? line : i;
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
  };
  for (int line = 0; line < lines; ++line) {
    for (int i = 0; i < count; ++i) {
      float sum = 0;
      for (int step = -reach; step <= reach; ++step) sum += from[at(line, std::clamp(i + step, 0, count - 1))];
      values[at(line, i)] = sum / static_cast<float>(2 * reach + 1);
    }
  }
}

std::uint8_t byte_of(float share) {
  return static_cast<std::uint8_t>(std::lround(255 * std::clamp(share, 0.0F, 1.0F)));
}

}  // namespace

Picture soft_layer(const ScenePicture& picture, PersonId person, double radius,
                   const std::function<Ink(Material)>& colour, const FrameOnPage& frame) {
  const Blurrer blurrer(picture, person, colour);
  // The blur spans some cells and no more: a soft thing needs few.
  const int step = std::max(1, static_cast<int>(radius / 3));
  const int reach = std::max(1, static_cast<int>(std::lround(radius / step / 1.5)));
  PixelPart part = blurrer.bounds();
  const int room = 2 * (reach + 1) * step;
  part = {part.left - room, part.top - room, part.right + room, part.bottom + room};
  Layer layer = blurrer.layer(part, step);
  for (std::vector<float>* values : {&layer.grey, &layer.alpha}) {
    for (int round = 0; round < 2; ++round) {
      blur_rows(*values, layer.width, layer.height, reach, true);
      blur_rows(*values, layer.width, layer.height, reach, false);
    }
  }

  Picture soft;
  const double mm_per_pixel = frame.size.x / picture.width;
  soft.at = frame.at + Vec2{part.left * mm_per_pixel, part.top * mm_per_pixel};
  soft.size = Vec2{static_cast<double>(layer.width * step), static_cast<double>(layer.height * step)} * mm_per_pixel;
  soft.width = layer.width;
  soft.height = layer.height;
  for (std::size_t i = 0; i < layer.alpha.size(); ++i) {
    soft.alpha.push_back(byte_of(layer.alpha[i]));
    soft.grey.push_back(byte_of(layer.alpha[i] > 0 ? layer.grey[i] / layer.alpha[i] : 1));
  }
  return soft;
}

}  // namespace lensward
