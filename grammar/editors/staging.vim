" Made by editor_grammars from the grammar of the staging language.
if exists('b:current_syntax')
  finish
endif

syntax iskeyword @,48-57,_,-,192-255
syntax match stagingName /\<[[:upper:]][[:alnum:]_'’.-]*/
syntax match stagingName /[^\x01-\x7f“”«»「」…−’　][^\x01-\x2c“”«»「」…−　\/:\]]*/
syntax keyword stagingWord about across after against ahead aims along also and apart area armchair around as
syntax keyword stagingWord at away back background bar barrel basin bath beam beat because bed before behind
syntax keyword stagingWord bench beside between beyond bookcase both box breaks briskly bunk busy but button by
syntax keyword stagingWord called camera center centre chair chest choose circuit close-up closes closest cloth
syntax keyword stagingWord color colour comes company corner counter crane crate crouching crowd cupboard
syntax keyword stagingWord curtain cut cuts cutting dark dawn day deep deeper default desk dimmed dolly door
syntax keyword stagingWord down downstage draw draws dressed drops dusk east edge eight eleven end error
syntax keyword stagingWord evening everyone exterior extra extreme eye eyes face facing far favor favour fence
syntax keyword stagingWord film fireplace first five fixed focal focus follows font for foreground forward four
syntax keyword stagingWord frame fridge from front frontal full furniture gate gives glass ground group half
syntax keyword stagingWord hand hands hangs hard headroom hedge height hide high hint hurrying in inside
syntax keyword stagingWord instead interior into inward jib just kit knee kneeling ladder language large last
syntax keyword stagingWord lasts later leads leaning lectern left lens less level light loudly low lying margin
syntax keyword stagingWord mark meanwhile measures medium mid middle midway more morning named near night nine
syntax keyword stagingWord nobody noisy north north-east north-west note number of off on one open opening
syntax keyword stagingWord opposite or order out outright outside outward over own pace page pages pan panning
syntax keyword stagingWord pass passing past pause pay people perching person pew piano pillar plain plan plant
syntax keyword stagingWord play practical present profile prop pupil quarter rail raised remark reveal right
syntax keyword stagingWord roll room round rug runs scene screen seats second set settle seven share shot
syntax keyword stagingWord shoulder shouted shut side sideboard sight sill sink sitting six sizing slider
syntax keyword stagingWord slowly small sofa soft softly sound south south-east south-west speaks stabiliser
syntax keyword stagingWord stage staging standing step steps sticks stool stop story stove table tape ten the
syntax keyword stagingWord then third three three-quarter through throw tilt tilting to top touching toward
syntax keyword stagingWord towards track tracking trailing treat tree tripod trolley turned twelve two under
syntax keyword stagingWord underneath until up upstage use via waive wall walls wardrobe warning way ways weigh
syntax keyword stagingWord weighs west while whispered wide widest width wild window with within without
syntax keyword stagingWord zooming
syntax match stagingLead /^\s*\%(without\|window\|weigh\|wall\|waive\|use\|treat\|throw\|then\|the\|story\|sound\|sizing\|share\|settle\|room\|reveal\|prop\|play\|plant\|person\|people\|pay\|pause\|pass\|order\|note\|meanwhile\|mark\|light\|lens\|later\|lasts\|instead\|hint\|hide\|group\|furniture\|font\|favour\|favor\|extra\|everyone\|draw\|door\|default\|cut\|crowd\|choose\|camera\|button\|area\|about\)\>/
syntax match stagingHeading /^\s*\%(way\|staging\|set\|scene\|opening\|kit\|film\|company\|beat\)\>/
syntax match stagingNumber /[-+−]\?\<\d\+\%(\.\d\+\)\?/
syntax match stagingMark /\[[^\]]*\]/
syntax region stagingText start=/"/ end=/"/ end=/$/ contains=stagingMark oneline
syntax region stagingText start=/“/ end=/”/ end=/$/ contains=stagingMark oneline
syntax region stagingText start=/«/ end=/»/ end=/$/ contains=stagingMark oneline
syntax region stagingText start=/「/ end=/」/ end=/$/ contains=stagingMark oneline
syntax match stagingComment /--.*$/
syntax match stagingMerge /^\s*\%(<<<<<<<\|=======\|>>>>>>>\||||||||\).*$/

highlight default link stagingName Identifier
highlight default link stagingWord Keyword
highlight default link stagingLead Statement
highlight default link stagingHeading Title
highlight default link stagingNumber Number
highlight default link stagingMark Special
highlight default link stagingText String
highlight default link stagingComment Comment
highlight default link stagingMerge Error

let b:current_syntax = 'staging'
