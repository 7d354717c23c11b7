#include "figure/proportions.h"

#include <catch2/catch.hpp>
#include <limits>

using namespace lensward;

TEST_CASE("standing landmarks are the fractions of Drillis and Contini") {
  // Winter, Biomechanics and Motor Control of Human Movement, fig. 4.1; metres for 1.70, 1.80 and 1.50 m.
  CHECK(eye_height(1.70_m, Posture::standing, 0_m).value == Approx(1.591).margin(0.001));
  CHECK(eye_height(1.80_m, Posture::standing, 0_m).value == Approx(1.685).margin(0.001));
  CHECK(eye_height(1.50_m, Posture::standing, 0_m).value == Approx(1.404).margin(0.001));
  CHECK(chin_fraction * 1.70 == Approx(1.479).margin(0.001));
  CHECK(shoulder_fraction * 1.70 == Approx(1.391).margin(0.001));
  CHECK(hip_fraction * 1.70 == Approx(0.901).margin(0.001));
  CHECK(knee_fraction * 1.70 == Approx(0.484).margin(0.001));
  // Thigh and shank lengths of the same table: 0.245 and 0.246.
  CHECK(hip_fraction - knee_fraction == Approx(0.245).margin(0.0005));
  CHECK(knee_fraction - ankle_fraction == Approx(0.246).margin(0.0005));
  CHECK(crown_height(1.70_m, Posture::standing, 0_m).value == Approx(1.70));
}

TEST_CASE("seated eyes are as high above the seat as the ANSUR II means") {
  // Gordon et al. 2014: eye height sitting 804.5 mm (men, 1756.2 mm tall), 747.7 mm (women, 1628.5 mm); on chairs of
  // 430 and 380 mm 1234.5 and 1127.7 mm. One fraction serves both, so a millimetre apart.
  CHECK(eye_height(Metres{1.7562}, Posture::sitting, Metres{0.43}).value == Approx(1.2345).margin(0.0015));
  CHECK(eye_height(Metres{1.6285}, Posture::sitting, Metres{0.38}).value == Approx(1.1277).margin(0.0015));
  // Sitting height 918.3 and 856.6 mm.
  CHECK(crown_height(Metres{1.7562}, Posture::sitting, 0_m).value == Approx(0.9183).margin(0.003));
  CHECK(crown_height(Metres{1.6285}, Posture::sitting, 0_m).value == Approx(0.8566).margin(0.006));
}

TEST_CASE("postures stand in the order of their heights") {
  // Common practice, no source for the numbers; the order is what staging rests on.
  const Metres tall{1.72};
  const auto eyes = [&](Posture posture, double seat) { return eye_height(tall, posture, Metres{seat}).value; };
  CHECK(eyes(Posture::standing, 0) > eyes(Posture::leaning, 0));
  CHECK(eyes(Posture::leaning, 0) > eyes(Posture::sitting, 0.45));
  CHECK(eyes(Posture::perching, 0.75) > eyes(Posture::sitting, 0.45));
  CHECK(eyes(Posture::perching, 1.2) == Approx(eyes(Posture::standing, 0)));
  CHECK(eyes(Posture::perching, 0) > eyes(Posture::sitting, 0.45));
  CHECK(eyes(Posture::kneeling, 0) > eyes(Posture::crouching, 0));
  CHECK(eyes(Posture::crouching, 0) > eyes(Posture::sitting, 0));
  CHECK(eyes(Posture::sitting, 0) > eyes(Posture::lying, 0));
  CHECK(eyes(Posture::lying, 0.5) - eyes(Posture::lying, 0) == Approx(0.5));
}

TEST_CASE("a body takes half its breadth over the shoulders, clothes and sway") {
  // ANSUR II bideltoid breadth 510.4 mm (men) and 450.3 mm (women), 5 to 10 cm more for clothes and sway.
  CHECK(body_radius(Metres{1.7562}).value == Approx(0.255 + 0.05).margin(0.007));
  CHECK(body_radius(Metres{1.6285}).value == Approx(0.225 + 0.05).margin(0.007));
}

TEST_CASE("sizes cut the figure within the bands of the trade") {
  // Landmarks: course notes on shot sizes (taylorfrancis 9781315670652, vierundzwanzig.de, eac.libguides.com), as bands
  // of stature from BOD fractions above.
  const auto cut = [](ShotSize size) { return sizing_of(size).cuts.value; };
  CHECK((cut(ShotSize::close_up) >= 0.82 && cut(ShotSize::close_up) <= 0.87));
  CHECK((cut(ShotSize::medium_close_up) >= 0.70 && cut(ShotSize::medium_close_up) <= 0.76));
  CHECK((cut(ShotSize::medium_shot) >= 0.53 && cut(ShotSize::medium_shot) <= 0.62));
  CHECK((cut(ShotSize::knee_shot) >= 0.24 && cut(ShotSize::knee_shot) <= 0.30));
  CHECK(cut(ShotSize::full_shot) == 0);
  CHECK(cut(ShotSize::extreme_close_up) > cut(ShotSize::close_up));
  // No size may cut at neck, elbow, knee or ankle, a hundredth of stature either way.
  for (ShotSize size : {ShotSize::extreme_close_up, ShotSize::close_up, ShotSize::medium_close_up,
                        ShotSize::medium_shot, ShotSize::knee_shot}) {
    for (double joint : {chin_fraction, elbow_fraction, knee_fraction, ankle_fraction}) {
      CHECK(std::fabs(cut(size) - joint) > 0.01);
    }
  }
}

TEST_CASE("the picture's height at the person follows from cut and headroom") {
  CHECK(frame_height_for(ShotSize::full_shot, Metres{1.72}).value == Approx(1.870).margin(0.001));
  CHECK(frame_height_for(ShotSize::wide_shot, Metres{1.72}).value == Approx(2.867).margin(0.001));
  CHECK(frame_height_for(ShotSize::medium_close_up, Metres{1.72}).value == Approx(0.497).margin(0.001));
  CHECK(frame_height_for(ShotSize::medium_shot, Metres{1.72}).value == Approx(1.72 * 0.44 / 0.92).margin(1e-9));
}

TEST_CASE("every size is found again from its own cut") {
  for (ShotSize size :
       {ShotSize::extreme_close_up, ShotSize::close_up, ShotSize::medium_close_up, ShotSize::medium_shot,
        ShotSize::knee_shot, ShotSize::full_shot, ShotSize::wide_shot, ShotSize::extreme_wide_shot}) {
    const Sizing sizing = sizing_of(size);
    CHECK(size_of_cut(sizing.cuts, sizing.headroom) == size);
  }
  CHECK(size_of_cut(Share{0.5277}, Share{0.1}) == ShotSize::medium_shot);
  CHECK(size_of_cut(Share{-3}, Share{0.1}) == ShotSize::full_shot);
  CHECK(size_of_cut(Share{7}, Share{0}) == ShotSize::extreme_close_up);
  CHECK(size_of_cut(Share{std::numeric_limits<double>::quiet_NaN()}, Share{0.1}) == ShotSize::full_shot);
}
