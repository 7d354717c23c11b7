// Each cue grows with what it measures, stays within 0..1, and is 0 where it means nothing.
#include <catch2/catch.hpp>
#include <functional>

#include "company.h"
#include "emphasis/gates.h"
#include "emphasis/weights.h"

using namespace lensward;

namespace {

double strength(const Company& company, CueKind cue, int person = 0) {
  return company.tally().standings[static_cast<std::size_t>(person)].strength[static_cast<std::size_t>(cue)];
}

// `set` stages the company for each value in turn; the cue of person 0 must strictly grow along them.
void grows(CueKind cue, const std::vector<double>& values, const std::function<void(Company&, double)>& set) {
  double before = -1;
  for (const double value : values) {
    Company company(3);
    set(company, value);
    const double now = strength(company, cue);
    INFO(name_of(cue) << " at " << value);
    CHECK(now > before);
    CHECK(now >= 0);
    CHECK(now <= 1);
    before = now;
  }
}

}  // namespace

TEST_CASE("voice grows with loudness") {
  grows(CueKind::voice, {-1, 0, 1, 2, 3}, [](Company& company, double loud) {
    company.speaks(0, {1}, Moment{4000}, Moment{8000});
    if (loud < 0) company.plan.speeches.clear();
    if (loud >= 0) company.plan.speeches[0].loudness = static_cast<Loudness>(static_cast<int>(loud));
  });
}

TEST_CASE("voice is gone a second after the last word") {
  Company company(2);
  company.speaks(0, {1}, Moment{1000}, Moment{4500});
  CHECK(strength(company, CueKind::voice) == Approx(0.45));
  company.view.moment = Moment{5500};
  CHECK(strength(company, CueKind::voice) == 0);
}

TEST_CASE("a rest inside a speech lets the voice fall, a gap between words does not") {
  Company company(2);
  company.speaks(0, {}, Moment{4000}, Moment{8000});
  Speech& speech = company.plan.speeches[0];
  speech.timed = {{"one", Moment{4000}, Moment{4500}, {}}, {"two", Moment{5500}, Moment{8000}, {}}};
  CHECK(strength(company, CueKind::voice) == Approx(0.45));
  speech.timed[1].begin = Moment{4700};
  CHECK(strength(company, CueKind::voice) == Approx(0.9));
}

TEST_CASE("a voice from out of the picture draws to nobody") {
  Company company(2);
  company.speaks(0, {1}, Moment{4000}, Moment{8000});
  company.plan.speeches[0].off = true;
  CHECK(strength(company, CueKind::voice) == 0);
}

TEST_CASE("spoken to: one alone is more than one of two, and that more than another altogether") {
  grows(CueKind::spoken_to, {0, 1, 2}, [](Company& company, double way) {
    company.speaks(1, {2}, Moment{4000}, Moment{8000});
    if (way == 1) company.plan.speeches[0].to = {PersonId{0}, PersonId{2}};
    if (way == 2) company.plan.speeches[0].to = {PersonId{0}};
  });
}

TEST_CASE("near lens grows with the head") {
  grows(CueKind::near_lens, {0.02, 0.05, 0.1, 0.15},
        [](Company& company, double head) { company.seen(0).head_height = Share{head}; });
}

TEST_CASE("near light grows with the face's luminance, and is nothing four stops under the brightest") {
  grows(CueKind::near_light, {6.7 / 16, 1, 2, 4, 6.7},
        [](Company& company, double nits) { company.seen(0).luminance = Nits{nits}; });
  Company company(2);
  company.seen(0).luminance = Nits{6.7 / 16};
  CHECK(strength(company, CueKind::near_light) == Approx(0).margin(1e-9));
}

TEST_CASE("sharp falls with blur, full within the sharp circle and nothing from 6 % of the head") {
  grows(CueKind::sharp, {0.2, 0.1, 0.06, 0.03, 0.025},
        [](Company& company, double blur) { company.seen(0).blur = Millimetres{blur}; });
  Company company(2);
  company.seen(0).blur = Millimetres{0.06 * 0.15 * 13.454};
  CHECK(strength(company, CueKind::sharp) == 0);
}

TEST_CASE("body moves grows with speed across the picture") {
  grows(CueKind::body_moves, {0, 0.1, 0.3, 0.6}, [](Company& company, double speed) {
    if (speed > 0) company.walks(0, {speed, 0}, Moment{4500}, Moment{9000});
  });
}

TEST_CASE("body moves: a quarter of the frame's width a second, just begun, is full strength") {
  Company company(2);
  const double frame_width = 4 * 24.89 / 35;
  company.walks(0, {frame_width / 4, 0}, Moment{5000}, Moment{9000});
  CHECK(strength(company, CueKind::body_moves) == Approx(1));
}

TEST_CASE("body moves: a camera that moves past someone still moves nobody") {
  Company company(2);
  company.seen(0).screen_speed = 0.5;
  CHECK(strength(company, CueKind::body_moves) == 0);
}

TEST_CASE("hands move grows with what they do") {
  grows(CueKind::hands_move, {0, 0.3, 0.6, 0.7, 1}, [](Company& company, double busy) {
    company.state(0).hands_moving = busy;
    company.state(0).hands_since = Moment{4800};
  });
}

TEST_CASE("movement fades over 0.8 s after it stops") {
  Company company(2);
  Reckoner reckoner(company.plan);
  company.state(0).hands_moving = 1;
  company.state(0).hands_since = company.view.moment;
  const auto hands = [&] {
    return reckoner.reckon(company.view, company.people, company.view.state)
        .standings[0]
        .strength[static_cast<std::size_t>(CueKind::hands_move)];
  };
  CHECK(hands() == Approx(1));
  company.state(0).hands_moving = 0;
  company.view.moment += Milliseconds{400};
  CHECK(hands() == Approx(0.5));
  company.view.moment += Milliseconds{400};
  CHECK(hands() == Approx(0).margin(1e-9));
}

TEST_CASE("eyes move: a told glance counts for half a second") {
  Company company(2);
  company.track(0).eyes.push_back({Moment{4800}, Moment{5000}, {}, {}, Origin::said, {}});
  CHECK(strength(company, CueKind::eyes_move) == Approx(0.6));
  company.track(0).eyes[0].origin = Origin::assumed;
  CHECK(strength(company, CueKind::eyes_move) == 0);
}

TEST_CASE("centre grows toward the middle, alike from both sides") {
  grows(CueKind::centre, {1, 0.9, 0.75, 0.6, 0.5}, [](Company& company, double u) { company.seen(0).eyes.u = u; });
  Company left(2), right(2);
  left.seen(0).eyes.u = 0.2;
  right.seen(0).eyes.u = 0.8;
  CHECK(strength(left, CueKind::centre) == Approx(strength(right, CueKind::centre)));
}

// Share of a truncated Gaussian with σx² = .22, σy² = .45 σx² (half widths) that falls in the central 11 % and 25 % of
// a 16:9 frame, computed with SciPy 1.10 (erf): 0.26 and 0.50 for σx² = .22, between uniform (.11, .25) and the
// fixations of Judd et al. 2009 (.40, .70; from memory).
TEST_CASE("centre: the prior's mass lies between uniform and what viewers' first looks show") {
  const auto mass = [](double area) {
    const double reach = std::sqrt(area);
    double inside = 0, all = 0;
    Company company(1);
    company.view.state.gate_height = Millimetres{24.89 * 9 / 16};
    for (int i = 0; i < 80; ++i) {
      for (int j = 0; j < 80; ++j) {
        const double u = (i + 0.5) / 80, v = (j + 0.5) / 80;
        company.seen(0).eyes = {u, v};
        const double prior = strength(company, CueKind::centre);
        all += prior;
        if (std::fabs(2 * u - 1) <= reach && std::fabs(2 * v - 1) <= reach) inside += prior;
      }
    }
    return inside / all;
  };
  const double in_11 = mass(0.11), in_25 = mass(0.25);
  CHECK(in_11 == Approx(0.257).margin(0.012));
  CHECK(in_25 == Approx(0.497).margin(0.015));
  CHECK(in_11 > 0.11);
  CHECK(in_11 < 0.40);
  CHECK(in_25 > 0.25);
  CHECK(in_25 < 0.70);
}

TEST_CASE("body to lens: the five positions have their figures") {
  const std::vector<std::pair<double, double>> positions{{0, 1}, {45, 0.85}, {90, 0.55}, {135, 0.25}, {180, 0.1}};
  for (const auto& [angle, expected] : positions) {
    Company company(2);
    company.seen(0).face_angle = company.seen(0).body_angle = Degrees{angle};
    CHECK(strength(company, CueKind::body_to_lens) == Approx(expected));
    company.seen(0).body_angle = Degrees{-angle};
    CHECK(strength(company, CueKind::body_to_lens) == Approx(expected));
  }
}

TEST_CASE("apart grows with clear space and with tone against what is behind") {
  grows(CueKind::apart, {0, 0.05, 0.1, 0.2}, [](Company& company, double gap) { company.seen(0).gap = gap; });
  grows(CueKind::apart, {0, -0.5, -1, -1.5}, [](Company& company, double stops) {
    company.seen(0).gap = 0;
    company.seen(0).against_behind = Stops{stops};
  });
}

TEST_CASE("apart: one standing among seated is the odd one out, one of two is not") {
  Company three(3), two(2);
  three.seen(0).gap = two.seen(0).gap = 0;
  three.state(1).posture = three.state(2).posture = two.state(1).posture = Posture::sitting;
  CHECK(strength(three, CueKind::apart) == 1);
  CHECK(strength(two, CueKind::apart) < 1);
}

TEST_CASE("looked at grows with how plainly the looker is seen") {
  grows(CueKind::looked_at, {0, 0.25, 0.5, 1}, [](Company& company, double visible) {
    company.looks_at(1, person_target(0));
    company.seen(1).head_visible = Share{visible};
  });
}

TEST_CASE("looked at: eyes turned away from someone do not rest on them") {
  Company company(2);
  company.looks_at(1, person_target(0));
  company.state(1).looks_at = {10, 10, 1};
  CHECK(strength(company, CueKind::looked_at) == 0);
}

TEST_CASE("camera move grows with the speed of a push") {
  double before = -1;
  for (const double metres : {0.0, 0.01, 0.03, 0.06}) {
    Company company(1);
    company.track(0).feet[0].to.path = {{0, 4}};
    CameraState soon = company.view.state;
    soon.at.y += metres;
    Reckoner reckoner(company.plan);
    const double now = reckoner.reckon(company.view, company.people, soon)
                           .standings[0]
                           .strength[static_cast<std::size_t>(CueKind::camera_move)];
    CHECK(now > before);
    before = now;
  }
}

TEST_CASE("newness: someone who comes into sight is new for two seconds, nobody is new as the scene begins") {
  Company company(2);
  company.view.moment = Moment{0};
  company.seen(0).head_visible = Share{0};
  Reckoner reckoner(company.plan);
  const auto news = [&](int person) {
    return reckoner.reckon(company.view, company.people, company.view.state)
        .standings[static_cast<std::size_t>(person)]
        .strength[static_cast<std::size_t>(CueKind::newness)];
  };
  CHECK(news(1) == 0);
  company.view.moment = Moment{3000};
  company.seen(0).head_visible = Share{1};
  CHECK(news(0) == 1);
  company.view.moment = Moment{4000};
  CHECK(news(0) == Approx(0.5));
  company.view.moment = Moment{5000};
  CHECK(news(0) == 0);
}

TEST_CASE("weights add to a hundred, told ones included") {
  Settings settings;
  const auto sum = [](const std::array<Points, cue_count>& weights) {
    double total = 0;
    for (const Points weight : weights) total += weight.value;
    return total;
  };
  CHECK(sum(weights_of(settings)) == Approx(100));
  settings.weights["voice"] = 22;
  settings.weights["near-lens"] = 5;
  CHECK(sum(weights_of(settings)) == Approx(100));
  const double scale = 100.0 / (100 + 4 - 5);
  CHECK(weights_of(settings)[static_cast<std::size_t>(CueKind::voice)].value == Approx(22 * scale));
  CHECK(weights_of(settings)[static_cast<std::size_t>(CueKind::near_lens)].value == Approx(5 * scale));
  settings.weights.clear();
  for (int i = 0; i < cue_count; ++i) settings.weights[name_of(static_cast<CueKind>(i))] = 0;
  CHECK(sum(weights_of(settings)) == Approx(100));
}

TEST_CASE("gates: hidden, tiny or dark gives no points whatever else") {
  Company company(2);
  company.speaks(0, {}, Moment{4000}, Moment{8000});
  Company hidden = company, tiny = company, dark = company, half = company;
  hidden.seen(0).head_visible = Share{0};
  tiny.seen(0).head_height = Share{0};
  dark.seen(0).exposure = Stops{-5};
  dark.seen(0).luminance = Nits{6.7 / 64};
  half.seen(0).head_visible = Share{0.5};
  CHECK(hidden.points(0) == 0);
  CHECK(tiny.points(0) == 0);
  CHECK(dark.points(0) == Approx(0).margin(1e-9));
  CHECK(half.points(0) == Approx(company.points(0) / 2));
}

TEST_CASE("gates: a head from behind is lit by the light on the side toward us") {
  Company company(2);
  company.seen(0).exposure = Stops{-20};
  CHECK(company.points(0) > 0);
  company.seen(0).luminance = Nits{0};
  CHECK(company.points(0) == 0);
}
