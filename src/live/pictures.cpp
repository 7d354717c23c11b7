#include "live/pictures.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <utility>

#include "base/shared_work.h"
#include "export/export.h"
#include "pages/thumbnail_draw.h"
#include "pages/words.h"

namespace lensward {
namespace {

// Closer together they would only flicker.
constexpr Milliseconds least_apart{160};
// What comes to rest must be seen at rest.
constexpr Milliseconds rest{240};

double moved(const PersonSeen& a, const PersonSeen& b) {
  const double shift = length(Vec2{b.eyes.u - a.eyes.u, b.eyes.v - a.eyes.v});
  const double grown = std::fabs(b.head_height.value - a.head_height.value);
  const double turned =
      (std::fabs((b.face_angle - a.face_angle).value) + std::fabs((b.body_angle - a.body_angle).value)) / 90;
  const double sharper = std::fabs(b.blur_of_frame.value - a.blur_of_frame.value) * 4;
  return shift + grown + turned * b.head_height.value + sharper;
}

bool shows(const PersonSeen& seen) { return seen.in_front && seen.body_visible.value > 0.01; }

// How different two views are, a frame's width gone by one person being 1.
double change_between(const View& a, const View& b) {
  if (a.camera != b.camera) return 1;
  double sum = 0;
  for (const PersonSeen& now : b.people) {
    const auto before = std::ranges::find(a.people, now.person, &PersonSeen::person);
    const bool showed = before != a.people.end() && shows(*before);
    if (showed != shows(now)) sum += 0.1;
    if (showed && shows(now)) sum += moved(*before, now);
  }
  return sum;
}

Target favoured_at(const Plan& plan, Moment moment) {
  const auto asked = asked_for(plan, beat_at(plan, moment), moment);
  return asked.empty() ? Target{} : asked.front();
}

// Mouths that open or shut, hands that are busy; another who is asked for, and so outlined, counts as a cut does.
double change_of_deeds(const Plan& plan, Moment from, Moment to) {
  double sum = 0;
  const auto within = [&](Moment at) { return from < at && at <= to; };
  for (const Speech& speech : plan.speeches) sum += 0.02 * (within(speech.begin) + within(speech.end));
  if (favoured_at(plan, from) != favoured_at(plan, to)) sum += 1;
  const double seconds = to_seconds(to - from).value;
  for (int i = 0; i < static_cast<int>(plan.people.size()); ++i) {
    const PersonState state = person_at(plan, PersonId{i}, to);
    if (state.present) sum += 0.03 * state.hands_moving * seconds;
  }
  return sum;
}

// A picture whenever the changes have added up to `unit`, and when they come to rest.
std::vector<Moment> moments_at(const std::vector<View>& views, const std::vector<double>& change, double unit) {
  std::vector<Moment> moments{views.front().moment};
  double sum = 0;
  for (std::size_t i = 1; i < views.size(); ++i) {
    sum += change[i];
    const Moment now = views[i].moment;
    if (now - moments.back() < least_apart) continue;
    bool rests = true;
    for (std::size_t next = i + 1; next < views.size() && views[next].moment - now <= rest; ++next)
      rests = rests && change[next] < 1e-4;
    if (sum < unit && !(rests && sum > unit / 4)) continue;
    moments.push_back(now);
    sum = 0;
  }
  return moments;
}

// The numbers of the lines' weights are those of a frame so many mm wide.
constexpr double drawn_width = 120;

double ratio_of(const Plan& plan, Moment moment) {
  const CameraState camera = camera_at(plan, on_air(plan, moment), moment);
  return camera.gate_height / camera.gate_width;
}

void keep(const std::vector<Moment>& moments, std::vector<std::string> pngs, Pictures& pictures) {
  std::map<std::string, std::size_t> known;
  for (std::size_t i = 0; i < moments.size(); ++i) {
    const auto [place, added] = known.try_emplace(pngs[i], pictures.pngs.size());
    if (added) pictures.pngs.push_back(std::move(pngs[i]));
    if (pictures.play.empty() || pictures.play.back().picture != place->second)
      pictures.play.push_back({moments[i], place->second});
  }
}

}  // namespace

std::vector<Moment> picture_moments(const Results& results, std::size_t most) {
  const std::vector<View>& views = results.attention.views;
  if (views.empty()) return {};
  std::vector<double> change(views.size(), 0);
  for (std::size_t i = 1; i < views.size(); ++i)
    change[i] =
        change_between(views[i - 1], views[i]) + change_of_deeds(results.plan, views[i - 1].moment, views[i].moment);
  constexpr double finest = 0.012, coarser = 1.15;
  for (double unit = finest;; unit *= coarser) {
    std::vector<Moment> moments = moments_at(views, change, unit);
    if (moments.size() <= std::max<std::size_t>(1, most)) return moments;
  }
}

double picture_ratio(const Plan& plan) { return plan.stage.cameras.empty() ? Pictures{}.ratio : ratio_of(plan, {}); }

std::string picture_at(const Plan& plan, Moment moment, double ratio, int width) {
  Sheet sheet;
  sheet.width = drawn_width;
  sheet.height = drawn_width * ratio;
  const double own = ratio_of(plan, moment), wide = std::min(1.0, ratio / own) * drawn_width;
  const Vec2 size{wide, wide * own};
  const FrameOnPage frame{(Vec2{sheet.width, sheet.height} - size) * 0.5, size};
  sheet.items.push_back({draw_frame(plan, moment, frame, favoured_at(plan, moment), "frame", Pains::quick).group});
  return to_small_png(sheet, width);
}

Pictures pictures_of(const Results& results, const PictureBegins& begins) {
  const Plan& plan = results.plan;
  Pictures pictures;
  if (plan.stage.cameras.empty() || plan.beats.empty()) return pictures;
  pictures.ratio = picture_ratio(plan);
  const std::vector<Moment> moments = picture_moments(results, most_pictures);
  const std::size_t beats = plan.beats.size();
  std::vector<Moment> all;
  for (std::size_t beat = 0; beat < beats; ++beat) all.push_back(deciding_moment(results, static_cast<int>(beat)));
  all.insert(all.end(), moments.begin(), moments.end());
  std::vector<std::string> pngs(all.size());
  std::mutex telling;
  std::size_t begun = 0;
  share_work(all.size(), [&](const NextIndex& next) {
    while (const auto turn = next()) {
      if (begins) {
        const std::lock_guard<std::mutex> alone(telling);
        begins(begun++, all.size());
      }
      pngs[*turn] = picture_at(plan, all[*turn], pictures.ratio, *turn < beats ? still_width : play_width);
    }
  });
  if (begins) begins(all.size(), all.size());
  pictures.beats.assign(pngs.begin(), pngs.begin() + static_cast<std::ptrdiff_t>(beats));
  pngs.erase(pngs.begin(), pngs.begin() + static_cast<std::ptrdiff_t>(beats));
  keep(moments, std::move(pngs), pictures);
  return pictures;
}

}  // namespace lensward
