// Properties of the tally as a whole, and of who has the eye.
#include <algorithm>
#include <catch2/catch.hpp>

#include "company.h"

using namespace lensward;

namespace {

Company unlike_three() {
  Company company(3);
  company.speaks(1, {2}, Moment{4000}, Moment{8000});
  company.seen(0).eyes = {0.2, 0.35};
  company.seen(1).eyes = {0.45, 0.4};
  company.seen(2).eyes = {0.9, 0.5};
  company.seen(0).head_height = Share{0.22};
  company.seen(1).blur = Millimetres{0.05};
  company.seen(2).luminance = Nits{3};
  company.seen(2).face_angle = Degrees{70};
  company.looks_at(2, person_target(1));
  return company;
}

}  // namespace

TEST_CASE("shares add to one, points lie within 0 and 100") {
  const Sample sample = unlike_three().tally();
  double shares = 0;
  for (const Standing& standing : sample.standings) {
    shares += standing.share.value;
    CHECK(standing.points.value >= 0);
    CHECK(standing.points.value <= 100);
  }
  CHECK(shares == Approx(1));
}

TEST_CASE("points are the sum of the contributions, each gate times weight times strength") {
  const Company company = unlike_three();
  Reckoner reckoner(company.plan);
  for (const Standing& standing : company.tally().standings) {
    const double gate = standing.gate_visible * standing.gate_size * standing.gate_light;
    double sum = 0;
    for (std::size_t i = 0; i < standing.strength.size(); ++i) {
      CHECK(standing.contribution[i].value == Approx(gate * reckoner.weights()[i].value * standing.strength[i]));
      sum += standing.contribution[i].value;
    }
    CHECK(standing.points.value == Approx(sum));
  }
}

TEST_CASE("the mirrored picture has the mirrored shares") {
  const Company company = unlike_three();
  Company mirrored = company;
  for (PersonSeen& person : mirrored.view.people) {
    person.eyes.u = 1 - person.eyes.u;
    person.body_angle = -person.body_angle;
  }
  for (int i = 0; i < 3; ++i) CHECK(mirrored.share(i) == Approx(company.share(i)));
}

TEST_CASE("other names change nothing") {
  const Company company = unlike_three();
  Company renamed = company;
  for (Person& person : renamed.plan.stage.people) person.name = "Z" + person.name;
  for (int i = 0; i < 3; ++i) CHECK(renamed.share(i) == company.share(i));
}

TEST_CASE("of equals the one declared first leads") {
  Company company(2);
  company.seen(0).eyes.u = company.seen(1).eyes.u = 0.5;
  CHECK(company.tally().leader == person_target(0));
}

TEST_CASE("nobody to be seen: nobody leads and nobody has the eye") {
  Company company(2);
  for (PersonSeen& person : company.view.people) person.head_visible = Share{0};
  const Sample sample = company.tally();
  CHECK(sample.leader == Target{});
  CHECK(sample.holder == Target{});
  CHECK(best_rival(sample, person_target(0)).value == 0);
}

TEST_CASE("a company of none gives a tally of none") {
  const Company company(0);
  CHECK(company.tally().standings.empty());
}

TEST_CASE("the eye stays until another has led by three points for a quarter of a second") {
  Company company(2);
  company.seen(0).head_height = Share{0.2};
  Reckoner reckoner(company.plan);
  const auto at = [&](int ms) {
    company.view.moment = Moment{ms};
    return reckoner.reckon(company.view, company.people, company.view.state);
  };
  CHECK(at(3000).holder == person_target(0));
  company.seen(1).head_height = Share{0.4};
  const Sample first = at(3100);
  CHECK(first.leader == person_target(1));
  CHECK(first.holder == person_target(0));
  CHECK(at(3300).holder == person_target(0));
  CHECK(at(3350).holder == person_target(1));
}

TEST_CASE("a lead under three points never takes the eye") {
  Company company(2);
  company.seen(0).head_height = Share{0.2};
  Reckoner reckoner(company.plan);
  const auto at = [&](int ms) {
    company.view.moment = Moment{ms};
    return reckoner.reckon(company.view, company.people, company.view.state);
  };
  at(3000);
  company.seen(1).head_height = Share{0.24};
  const Sample later = at(9000);
  CHECK(later.leader == person_target(1));
  CHECK(later.holder == person_target(0));
}

TEST_CASE("a cut sets the eye free at once") {
  Company company(2);
  company.plan.stage.cameras.push_back(company.plan.stage.cameras[0]);
  company.plan.cameras.emplace_back();
  company.seen(0).head_height = Share{0.2};
  Reckoner reckoner(company.plan);
  reckoner.reckon(company.view, company.people, company.view.state);
  company.seen(1).head_height = Share{0.4};
  company.view.camera = CameraId{1};
  company.view.moment += Milliseconds{40};
  CHECK(reckoner.reckon(company.view, company.people, company.view.state).holder == person_target(1));
}

TEST_CASE("a prop somebody looks at stands in the tally") {
  Company company(2);
  Prop letter;
  letter.name = "Letter";
  company.plan.stage.props.push_back(letter);
  ThingSeen seen;
  seen.target = {Target::Kind::prop, 0, {}};
  seen.visible = Share{1};
  seen.box = {0.45, 0.5, 0.5, 0.56};
  seen.middle = {0.475, 0.53};
  seen.distance = Metres{3};
  company.view.things.push_back(seen);
  const Sample sample = company.tally();
  REQUIRE(sample.standings.size() == 3);
  CHECK(sample.standings[2].points.value > 0);
  CHECK(standing_of(sample, seen.target) == &sample.standings[2]);
}
