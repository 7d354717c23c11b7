// Rules of the frame, of focus and of light: each just at its limit, where it is quiet, and just beyond.
#include <catch2/catch.hpp>

#include "checked.h"

using namespace lensward;
using Messages = std::vector<std::string>;

namespace {

// A leads throughout and is favoured; nothing is wrong with the picture.
Reel favoured() {
  Reel reel(3);
  reel.points = [](int) { return std::vector<double>{50, 30, 10}; };
  reel.asks(Intent::Kind::favour, {0});
  return reel;
}

// The same, A speaking from 2 to 8 s and nobody asked for.
Reel speaking() {
  Reel reel = favoured();
  reel.plan.intents.clear();
  reel.says(0, 2000, 8000);
  return reel;
}

std::vector<std::string> framed(const Reel& reel, const std::string& rule, int from, int to,
                                const std::function<void(PersonSeen&)>& change) {
  const auto apply = [&](Attention& attention) {
    for (View& view : attention.views) {
      if (view.moment.count >= from && view.moment.count < to) change(view.people[0]);
    }
  };
  return messages(findings_of(reel, apply), rule);
}

}  // namespace

TEST_CASE("a picture with nothing wrong in it has no findings") {
  CHECK(findings_of(favoured()).empty());
  CHECK(findings_of(speaking()).empty());
}

TEST_CASE("turned-away: three-quarter back or back for more than a third") {
  const auto away = [](PersonSeen& seen) {
    seen.view = BodyView::back;
    seen.face_angle = Degrees{170};
  };
  CHECK(framed(favoured(), "turned-away", 0, 3300, away).empty());
  CHECK(
      framed(favoured(), "turned-away", 0, 3400, away) ==
      Messages{"`A` is favoured turned away for 34 % of the stretch in beat `One`, limit 33 %; the face is 170 deg off "
               "the lens at 0 s"});
  CHECK(framed(speaking(), "turned-away", 2000, 4000, away).empty());
  CHECK(framed(speaking(), "turned-away", 2000, 4100, away).size() == 1);
  const auto over_the_shoulder = [](PersonSeen& seen) {
    seen.view = BodyView::back;
    seen.face_angle = Degrees{80};
  };
  CHECK(framed(favoured(), "turned-away", 0, 10000, over_the_shoulder).empty());
}

TEST_CASE("masked: 30 % of the face, for half a second, and by whom") {
  const auto hides = [](double part) {
    return [part](PersonSeen& seen) {
      seen.head_visible = Share{1 - part};
      seen.masked_by = {{Target::Kind::person, 1, {}}};
    };
  };
  CHECK(framed(favoured(), "masked", 2000, 3000, hides(0.29)).empty());
  CHECK(framed(favoured(), "masked", 2000, 2400, hides(0.5)).empty());
  CHECK(
      framed(favoured(), "masked", 2000, 2500, hides(0.5)) ==
      Messages{"`B` hides 50 % of the face of `A` at 2 s in beat `One`, for 0.5 s of the favoured stretch; limit 30 % "
               "for 0.5 s"});
}

TEST_CASE("unseen-speaker: out of the picture for a second, or the whole of a short line, unless off") {
  const auto out = [](PersonSeen& seen) { seen.head_in_frame = Share{0}; };
  CHECK(framed(speaking(), "unseen-speaker", 3000, 3900, out).empty());
  CHECK(framed(speaking(), "unseen-speaker", 3000, 4000, out) ==
        Messages{"`A` speaks out of the picture for 1 s of the line at 2 s in beat `One`, limit 1 s"});
  Reel off = speaking();
  off.plan.speeches[0].off = true;
  CHECK(framed(off, "unseen-speaker", 0, 10000, out).empty());
  Reel brief = speaking();
  brief.plan.speeches[0].end = Moment{2500};
  CHECK(framed(brief, "unseen-speaker", 0, 10000, out).size() == 1);
}

TEST_CASE("off-the-edge: eyes within 5 % of the side") {
  const auto at = [](double u) { return [u](PersonSeen& seen) { seen.eyes.u = u; }; };
  CHECK(framed(favoured(), "off-the-edge", 0, 10000, at(0.05)).empty());
  CHECK(framed(favoured(), "off-the-edge", 2000, 3000, at(0.96)) ==
        Messages{"`A` is favoured 4 % in from frame right at 2 s in beat `One`, for 1 s; limit 5 %"});
  CHECK(framed(favoured(), "off-the-edge", 2000, 2400, at(0.96)).empty());
}

TEST_CASE("tight-headroom: the crown above the frame, but not in a close-up") {
  const auto cut = [](PersonSeen& seen) {
    seen.head_box.top = -0.03;
    seen.head_height = Share{0.15};
  };
  CHECK(framed(favoured(), "tight-headroom", 2000, 3000, cut) ==
        Messages{"the frame's top cuts 20 % of the head of `A` at 2 s in beat `One`, for 1 s; limit 0 %"});
  const auto close = [](PersonSeen& seen) {
    seen.head_box.top = -0.03;
    seen.head_height = Share{0.4};
  };
  CHECK(framed(favoured(), "tight-headroom", 2000, 3000, close).empty());
}

TEST_CASE("soft-favourite: blur over the sharp circle for half a second") {
  const auto blur = [](double mm) { return [mm](PersonSeen& seen) { seen.blur = Millimetres{mm}; }; };
  CHECK(framed(favoured(), "soft-favourite", 0, 10000, blur(0.025)).empty());
  CHECK(framed(favoured(), "soft-favourite", 2000, 2500, blur(0.06)) ==
        Messages{"`A` is favoured but soft for 0.5 s in beat `One`: blur 0.06 mm at 2 s, limit 0.025 mm"});
  CHECK(framed(speaking(), "soft-favourite", 0, 10000, blur(0.06)).empty());
}

TEST_CASE("dark-favourite: more than 2 stops under") {
  const auto under = [](double stops) { return [stops](PersonSeen& seen) { seen.exposure = Stops{-stops}; }; };
  CHECK(framed(favoured(), "dark-favourite", 0, 10000, under(2)).empty());
  CHECK(framed(favoured(), "dark-favourite", 2000, 3000, under(3.1)) ==
        Messages{"`A` is favoured but 3.1 stops under at 2 s in beat `One`, for 1 s; limit 2 stops"});
}

TEST_CASE("burning: more than 1.5 stops over, favoured or not") {
  const auto over = [](double stops) { return [stops](PersonSeen& seen) { seen.exposure = Stops{stops}; }; };
  CHECK(framed(speaking(), "burning", 0, 10000, over(1.5)).empty());
  CHECK(framed(speaking(), "burning", 2000, 3000, over(2.3)) ==
        Messages{"the face of `A` is 2.3 stops over at 2 s in beat `One`, for 1 s; limit 1.5 stops"});
}

TEST_CASE("hot-bystander: a stop brighter than the favoured for half of the stretch") {
  Reel reel = favoured();
  reel.plan.intents[0].targets = {{Target::Kind::person, 1, {}}};
  reel.points = [](int) { return std::vector<double>{30, 50, 10}; };
  const auto brighter = [&](double times, int until) {
    const auto apply = [&](Attention& attention) {
      for (View& view : attention.views) {
        for (PersonSeen& seen : view.people) seen.luminance = Nits{5};
        if (view.moment.count < until) view.people[0].luminance = Nits{5 * times};
      }
    };
    return messages(findings_of(reel, apply), "hot-bystander");
  };
  CHECK(brighter(2, 10000).empty());
  CHECK(brighter(4, 4900).empty());
  CHECK(brighter(4, 5000) ==
        Messages{"`A` is 2 stops brighter than `B`, who is favoured, at 0 s in beat `One`; limit 1 stop"});
}

TEST_CASE("stuck-camera: inside a table, inside a person, through a wall that is not wild") {
  Reel reel(1);
  reel.points = [](int) { return std::vector<double>{30}; };
  Camera camera;
  camera.name = "A";
  reel.plan.stage.cameras.push_back(camera);
  reel.plan.cameras.emplace_back();
  reel.plan.people[0].feet.push_back({Moment{0}, Moment{0}, {}, Walk{{{5, 5}}}, Origin::said, {}});
  Piece table;
  table.name = "Table";
  table.length = Metres{1.8};
  table.depth = Metres{0.8};
  table.height = Metres{0.75};
  table.at = {3, 2};
  reel.plan.stage.pieces.push_back(table);
  reel.plan.stage.walls.push_back({"South", {0, 0}, {7, 0}, false, {}});
  const auto camera_at = [&](Vec3 at, Vec3 later) {
    const auto apply = [&](Attention& attention) {
      for (View& view : attention.views) {
        view.camera = CameraId{0};
        view.state.focus = Metres{3};
        view.state.at = view.moment.count < 5000 ? at : later;
      }
    };
    return messages(findings_of(reel, apply), "stuck-camera");
  };
  CHECK(camera_at({3, 1.5, 0.7}, {3, 1.5, 0.7}).empty());
  CHECK(camera_at({3, 2, 0.9}, {3, 2, 0.9}).empty());
  CHECK(camera_at({3, 2, 0.7}, {3, 2, 0.7}) == Messages{"camera `A` stands inside `Table` at 0 s"});
  CHECK(camera_at({5.1, 5, 1.5}, {5.1, 5, 1.5}) == Messages{"camera `A` stands inside `A` at 0 s"});
  CHECK(camera_at({3, -1, 1.5}, {3, 1, 1.5}) == Messages{"camera `A` goes through wall `South` at 5 s"});
  reel.plan.stage.walls[0].wild = true;
  CHECK(camera_at({3, -1, 1.5}, {3, 1, 1.5}).empty());
}

TEST_CASE("too-near-to-focus: nearer than the kit's lens of that focal length goes") {
  Reel reel(1);
  reel.points = [](int) { return std::vector<double>{30}; };
  Camera camera;
  camera.name = "A";
  reel.plan.stage.cameras.push_back(camera);
  reel.plan.stage.lenses.push_back({"L85", Millimetres{85}, FNumber{2}, Metres{0.9}, {}});
  reel.plan.cameras.emplace_back();
  const auto focus_at = [&](double metres) {
    const auto apply = [&](Attention& attention) {
      for (View& view : attention.views) {
        view.camera = CameraId{0};
        view.state.focal = Millimetres{85};
        view.state.at = {9, 9, 1.5};
        view.state.focus = Metres{metres};
      }
    };
    return messages(findings_of(reel, apply), "too-near-to-focus");
  };
  CHECK(focus_at(0.9).empty());
  CHECK(focus_at(0.6) == Messages{"camera `A` should focus at 0.6 m at 0 s; its lens goes no nearer than 0.9 m"});
}

TEST_CASE("bump: a body inside a table, but not one that sits on it or crouches under it") {
  Reel reel(1);
  reel.points = [](int) { return std::vector<double>{30}; };
  Piece table;
  table.name = "Table";
  table.length = Metres{1.8};
  table.depth = Metres{0.8};
  table.height = Metres{0.75};
  table.at = {3, 2};
  table.open_underneath = true;
  reel.plan.stage.pieces.push_back(table);
  PersonTrack& track = reel.plan.people[0];
  track.present.push_back({Moment{0}, Moment{0}, true, true, Origin::said, {}});
  track.feet.push_back({Moment{0}, Moment{0}, {}, Walk{{{3.5, 2}}}, Origin::said, {}});
  const auto bumps = [&] { return messages(findings_of(reel), "bump"); };
  CHECK(bumps() == Messages{"`A` and `Table` are in one place at 0 s in beat `One`"});
  track.stance.push_back({Moment{0}, Moment{0}, {}, {Posture::crouching, {}}, Origin::said, {}});
  CHECK(bumps().empty());
  track.stance[0].to = {Posture::perching, PieceId{0}};
  CHECK(bumps().empty());
  track.stance.clear();
  track.feet[0].to.path = {{4.0, 2}};
  CHECK(bumps().empty());
}
