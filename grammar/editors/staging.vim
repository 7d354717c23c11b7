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
syntax keyword stagingWord called camera center centre chair chest choose close-up closes closest cloth color
syntax keyword stagingWord colour comes company corner counter crane crate crouching crowd cupboard curtain cut
syntax keyword stagingWord cuts cutting dark dawn day deep deeper default desk dimmed dolly door down downstage
syntax keyword stagingWord draw dressed drops dusk east edge eight eleven end error evening everyone exterior
syntax keyword stagingWord extra extreme eye eyes face facing far favor favour fence film fireplace first five
syntax keyword stagingWord fixed focal focus follows font for foreground forward four frame fridge from front
syntax keyword stagingWord frontal full furniture gate gives glass ground group half hand hands hangs hard
syntax keyword stagingWord headroom hedge height hide high hint hurrying in inside instead interior into inward
syntax keyword stagingWord jib just kit knee kneeling ladder language large last lasts later leads leaning
syntax keyword stagingWord lectern left lens less level light loudly low lying margin mark meanwhile measures
syntax keyword stagingWord medium mid middle midway more morning named near night nine nobody north north-east
syntax keyword stagingWord north-west note number of off on one open opening opposite or order out outright
syntax keyword stagingWord outside outward over own pace page pages pan panning pass passing past pause pay
syntax keyword stagingWord people perching person pew piano pillar plain plan plant play practical present
syntax keyword stagingWord profile prop quarter rail raised remark reveal right roll room round rug runs scene
syntax keyword stagingWord screen seats second set settle seven share shot shoulder shouted shut side sideboard
syntax keyword stagingWord sight sill sink sitting six sizing slider slowly small sofa soft softly sound south
syntax keyword stagingWord south-east south-west speaks stabiliser stage staging standing step steps sticks
syntax keyword stagingWord stool stop story stove table tape ten the then third three three-quarter through
syntax keyword stagingWord throw tilt tilting to top touching toward towards track tracking trailing treat tree
syntax keyword stagingWord tripod trolley turned twelve two under underneath until up upstage use via waive
syntax keyword stagingWord wall walls wardrobe warning way ways weigh weighs west while whispered wide widest
syntax keyword stagingWord width wild window with within without zooming
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
