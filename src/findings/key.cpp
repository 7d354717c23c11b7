#include "findings/key.h"

namespace lensward {

FindingKey key_of(const Finding& finding) {
  const Subject& subject = finding.subject;
  return {finding.rule, subject.scene, subject.beat, subject.people};
}

}  // namespace lensward
