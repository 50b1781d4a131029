"""Numbers written as words, and the few words of other languages that carry a meaning, put into the form that is read.

German, French and Spanish words are those that gyms of those languages mix into their sheets: common practice.
"""

from __future__ import annotations

import re
from functools import lru_cache

from tracker.prescription.sheet.words.lifters_short import lifters_short
from tracker.prescription.sheet.words.other_signs import other_signs
from tracker.prescription.sheet.words.other_tongues import other_tongues
from tracker.prescription.sheet.words.phrases import as_told
from tracker.prescription.sheet.words.shorthand import shorthand
from tracker.prescription.sheet.words.told_otherwise import told_otherwise

_UNITS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11,
    "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
    "zwei": 2, "drei": 3, "vier": 4, "fünf": 5, "sechs": 6, "sieben": 7, "acht": 8, "neun": 9, "zehn": 10, "zwölf": 12,
    "fünfzehn": 15, "zwanzig": 20, "dreissig": 30, "dreißig": 30,
    "vierzig": 40, "fünfzig": 50, "sechzig": 60, "siebzig": 70, "achtzig": 80, "neunzig": 90, "elf": 11,
    "deux": 2, "neuf": 9, "dix": 10, "onze": 11, "trente": 30, "quarante": 40, "cinquante": 50, "soixante": 60, "trois": 3, "quatre": 4, "cinq": 5, "huit": 8, "douze": 12, "quinze": 15, "vingt": 20,
    "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "nueve": 9, "diez": 10, "doce": 12,
    "veinte": 20, "quince": 15, "treinta": 30, "cuarenta": 40, "cincuenta": 50, "sesenta": 60, "setenta": 70, "ochenta": 80, "noventa": 90,
}  # fmt: skip
_TENS = {
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fourty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
    "ninety": 90,
}
_NUMBER_WORD = re.compile(
    rf"\b(?:({'|'.join(_TENS)})(?:[ -](one|two|three|four|five|six|seven|eight|nine))?|(?:(a|one|two|three|four|five|six|seven|eight|nine) )?hundred"
    rf"(?: and ({'|'.join([*_TENS, 'ten'])}))?|({'|'.join(sorted(_UNITS, key=len, reverse=True))}))\b"
)
# A load as it is spoken: "one forty for two", "two twenty five pounds"
_HUNDREDS = re.compile(
    rf"\b(one|two|three) ({'|'.join([*_TENS, 'ten'])})(?:[ -](one|two|three|four|five|six|seven|eight|nine))?(?= (?:for|kilos?|kg|pounds?|lbs?|all kilos|and then|no straps)\b|[,.]|$)"
)
# "one" counts only before what is counted; elsewhere it is "the one", "one of you", "everyone"
_COUNTED = re.compile(
    r"[ -](?:minutes?|mins?|rounds?|sets?|reps?|miles?|km|kilomet\w+|seconds?|secs?|burpees?|singles?|mile|more round|round|"
    r"barbell|dumbbells?|kettlebells?|kb|db|rope|wall|minute|(?:last|final|more|max|top|heavy|back[ -]?off|drop) sets?)\b"
)
_ONE_AT = re.compile(rf" (?:at|@) (?:about |around )?(?:\d|{'|'.join(_TENS)})")
# "three by five", "acht mal drei": sets and repetitions, but not lengths and distances
_BY = re.compile(
    r"(?<![\d.,:])(\d{1,2}) (?:by|times|mal|fois|por|veces) (\d{1,2})(?![\d.,:]\d|\d)(?! ?(?:m|km|k|cal|cals|min|mins|minutes?|sec|secs|seconds?|s|meters?|metres?|rounds?|kg|lb|%|times|by|mal|fois|por)\b)(?! ?['\"%])"
)
_FAR_TIMES = re.compile(r"(?<=\d) (?:mal|fois|veces|times) (?=\d{2,5} ?(?:m|km|k)\b)")
_SLIPS = re.compile(r"(?<=\d)o(?= ?%)")  # a letter for a nought
_COUNT_IS = re.compile(r"\bn ?= ?(\d{1,2})(?=[;,]| reps)")
_SHARE = re.compile(r"(?<![\d.,])0[.,](\d{1,2}) ?(?:x|[*]|of|·) ?(?=\d{1,2} ?rm\b|max|tm\b)")
# "three seconds down, one second pause, up fast"
_SLOW = re.compile(
    r"\b([1-9]) ?s(?:ec(?:onds?)?)?\.? down,? (?:and )?([0-9]) ?s(?:ec(?:onds?)?)?\.? (?:pause|hold)(?: (?:at|in|on) the (?:bottom|hole|chest))?,? (?:and )?(?:(?:drive |come |go )?up (?:fast|quick)|fast up|explode(?: up)?)"
)
# What is put right behind an arrow: "5x3 @ 80% -> now 4x2 @ 85%", "rest 2' -> 3'", "9 TTB -> 12, you are better now"
_NOW = r"(?:->|→|=>|--+>|>) ?(?:now|make (?:it|that)|jetzt|neu|ahora|maintenant|changed to)(?: it's)?:? (?=\d)"
_PUT_RIGHT: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(rf"\d{{1,2}} ?x ?\d{{1,2}}(?: ?(?:@|at) ?\d+(?:[.,]\d)? ?%?)? ?{_NOW}"), ""),
    (re.compile(rf"\b\d+(?:[.,:]\d+)? ?(?:%|kg|lb|min(?:utes?)?\b|sec\b|s\b|'|reps\b|rounds\b)? ?{_NOW}"), ""),
    (re.compile(r"\b(rest|cap|pause) \d+(?::\d\d)? ?(?:min\b|sec\b|s\b|')? ?(?:->|→|=>|>) ?(?=\d)"), r"\1 "),
    (re.compile(r"^(\s*)\d{1,3}((?: [a-z][a-z0-9-]*){1,4}) ?(?:->|→|=>|>) ?(\d{1,3})(?=[,.;]|\s*$)"), r"\1\3\2"),
)
# "start at about 60 % and finish at about 85": anywhere between, rising
_FROM_TO = re.compile(
    r"\bstart(?:ing)? (?:at|@|with|around) (?:about |around )?(\d{2,3})(?: ?%)?,? (?:and |then )?(?:finish|end|build|work up|go up)(?:ing)?(?: up)? (?:at|to|with|on|around) (?:about |around )?(\d{2,3})(?: ?%)?"
)
_FOR_BOTH = re.compile(r"(?<=,) ?\bmen (\d{1,3}(?:\.5)?),? (?:and )?women (\d{1,3}(?:\.5)?)(?=\s*$|[,.;)])")
# "24 kilos for the men, 16 for the women": the unit stands once
_HE = r"(?:for )?(?:the )?(?:men|guys|boys|lads|males?|gents)"
_SHE = r"(?:for )?(?:the )?(?:women|girls|ladies|lasses|females?|gals)"
_ONE_UNIT = re.compile(
    rf"(?<![\d./-])(?P<a>\d{{1,3}}(?:\.\d+)?) ?(?P<u>kg|lb) (?:{_HE},? ?(?:and |/ ?)?(?P<b>\d{{1,3}}(?:\.\d+)?) {_SHE}|{_SHE},? ?(?:and |/ ?)?(?P<c>\d{{1,3}}(?:\.\d+)?) {_HE})\b"
)
# "with the 20s or the 12.5s", "take it down to 60 and 40"
_THE_OR_THE = re.compile(
    r"\b(?:with|at|using|on) the (\d{1,3}(?:\.\d)?)'?s? or (?:the )?(\d{1,3}(?:\.\d)?)'?s?(?![\w%]| ?(?:min|reps|m\b|cal))|\bdown to (\d{2,3}) and (\d{2,3})\b(?! ?(?:min|reps|%))"
)
# "43/30 (95/65 lb)": the same loads in the other unit; the first pair is in the one that does not stand there
_OTHER_UNIT = re.compile(
    r"(?<![\d./-])(?P<a>\d{1,3}(?:\.\d+)?)(?P<p>/\d{1,3}(?:\.\d+)?)? ?\((?P<b>\d{1,3}(?:\.\d+)?)(?P<q>/\d{1,3}(?:\.\d+)?)? ?(?P<u>kg|lb)\)"
)
# What a speaker takes back: "five by five at 75 no wait four by five"
_NO_WAIT = re.compile(
    r"\d{1,2} ?x ?\d{1,2}(?: (?:at|@) ?\d+ ?%?)?,? (?:no wait|wait no|no sorry|sorry|i mean|or rather|correction|make that),? (?=\d{1,2} ?x ?\d)"
)
# "first set 5 at 60, last set 3 at 80", "and then 3 again @ 85": sets one by one
_ONE_SET = re.compile(
    r"\b(?:(?:for|on) )?(?:the |your |a )?(?:first|1st|second|2nd|third|3rd|fourth|4th|fifth|5th|next|another) (?:set|one)(?: is| are| of| do| we do|:|,)* (?=\d{1,2} (?:reps? )?(?:at|@) ?\d{2})"
)
_AGAIN = re.compile(r"\b(\d{1,2}(?: reps?)?) (?:again|once more|one more time)(?= ?(?:at|@) ?\d{2})")
_AND_A_HALF = re.compile(r"(?<![\d.])(\d{1,3}) and (?:a |1 )?half(?=s?\b)")
_A_UNIT = re.compile(r"\ba (?=(?:minutes?|mile|single|double|triple)\b(?! of))")
_FOREIGN: tuple[tuple[str, str], ...] = (
    (r"wiederholungen|wiederholung|wdhl?\.?|wh\b|repeticiones|répétitions|repetitions?|répés", "reps"),
    (r"\bauf zeit\b|\bfür zeit\b|\bpor tiempo\b|\bpour (?:le )?temps\b|\bcontre la montre\b|(?<=rondas )x tiempo\b|\bcontra(?: ?el)? reloj\b|\ba tiempo\b(?=:)|\bfor times\b", "for time"),
    (r"\bso viele runden wie möglich\b|\bso viele runden wie moeglich\b|\bmax(?:imum)? de tours\b|\bm[aá]xim[ao]s? (?:n[uú]mero de )?rondas\b|\bun maximum de tours\b|\bel m[aá]ximo de rondas\b", "max rounds"),
    (r"(?<=max rounds) en (?=\d)", " in "),
    (r"\bas many (?!rounds?\b|reps?\b|good\b|cal|sets?\b|as\b|clean\b|unbroken\b)([a-z][a-z -]{2,30}?) as (?:possible|(?:you|u) can) in (?=\d)", r"max \1 in "),
    (r"\bpress up (?=to\b)", "press, up "),
    (r"\b(?:reference|ref|basis|base|based on|referenz|basado en|base sur)\b ?(?:is|are|=|:)? ?(?:your |the |last )?(?=\d{1,2} ?rm\b)", "of "),
    (r"\bsemaine du (?=\d)", "week of "), (r"\bmax(?:imum)? d'entra[iî]nement\b|\btrainingsmaximum\b|\bm[aá]ximo de entrenamiento\b", "training max"),
    (r"\b(?:de|du) (?:votre|ton|leur)\b|\bde(?:l|) (?:tu|su|vuestro)\b", "of your"), (r"(?<=\d )(?:à|a|bei|mit|al|zu)(?= \d{2,3}(?:[.,]\d)?(?:[,;]|\s*$| et\b| y\b| und\b| ?%))|(?<=\d\+ )(?:à|bei|mit|al)(?= \d{2})", "@"),
    (r"\btoutes les min\w*\b(?! \d)", "every minute"), (r"(?<= )(?:pour|para|für) (?:la|le|les|las|los|el|den|die|das)(?= [a-zäöüéèñ])", "for the"),
    (r"\bdoppel[ -]?kugel\b|\bdouble[ -]bells?\b", "double kettlebell"), (r"\bkugeln?\b", "kettlebell"), (r"\bgesamtzahl\b", "total number"), (r"\b(?:ist|est|es) (?:das |le |el )(?:ergebnis|score|résultat|resultado)\b", "is the score"),
    (r"\b(?:doppelte (?:an)?zahl|doppelt so viele?|double (?:the )?(?:number|reps|amount)|twice (?:as many|the reps|the number)|el doble|le double)\b", "x2"),
    (r"\b(run|row|ski|swim) (\d{3,4})s\b(?! and \d)", r"\1 \2 m"), (r"(?<=\d) c\b(?=\s*$| (?:row|ski|bike|erg))", " cal"),
    (r"\bheavy (?:einer|1er)\b(?: suchen)?", "heavy single"), (r"\bheavy (?:zweier|2er)\b(?: suchen)?", "heavy double"), (r"\bheavy (?:dreier|3er)\b(?: suchen)?", "heavy triple"), (r"\bb'?pees?\b", "burpees"), (r"\bdevil'?s press", "devil press"),
    (r"^\s*(?:\d ?-? ?)?alt(?:ernative)?s? ?\((no [a-z' -]+)\) ?:", r"\1:"),
    (r"\b(?:(?:pour|para|für|fuer) (?:les |las |los |die )?)?(?:filles|femmes|chicas|mujeres|mädels|maedels|mädchen)\b", "women"),
    (r"\b(?:(?:pour|para|für|fuer) (?:les |los |die )?)?(?:garçons|hommes|mecs|chicos|hombres|jungs|jungen)\b", "men"),
    (r"\b(?:avec|con|mit) (?:(?:deux|dos|zwei|2) )?(?:halt[eè]res?|mancuernas?|kurzhanteln?|hanteln?)\b", "with dumbbells"),
    (r"\b(?:barra (?:de|para) dominadas|barre (?:de|à) tractions?|klimmzugstange)\b", "pull-up bar"), (r"\bkh\b(?= ?(?:2 ?x|\d|$))", "dumbbells"),
    (r"\bsac à dos\b|\bmochila\b|\brucksack\b", "backpack"),
    (r"\bou\b|\bo\b(?= (?:sac|backpack|con|mochila|band|\d))", "or"),
    (r"\b(?:(?:plus |più |más |mais )?(?:facile|f[aá]cil|facilit[aé]\w*)|einfacher?|leichter|makkelijk(?:er)?|skaliert(?:e version)?|skalierung|geschaald|scalat[oa]|versione facile)(?= ?:)", "scaled"),
    (r"\((?:o|ou|oder|oppure|o bien|ou bien|of anders) (?=[a-z]{3})(?!más|mais|plus|più|menos|moins)", "(or "),
    (r"(?<=\w) \((or|scaled:?|easier:?|home:?) (?:con (?:el[aá]stic[oi]|bandas?|gomas?)|avec (?:un )?[eé]lastique|mit (?:gummi)?band|com el[aá]stico|met (?:een )?(?:elastiek|band)|with (?:a |the )?bands?)\)", r" (\1 banded)"),
    (r"\bescalad[oa]\b|\badaptado\b|\badapt[ée]\b|\bleichter\b", "scaled"),
    (r"\bfaltan? |\bsi no (?:tienes|hay) ", "no "), (r"\b(?:auf|sur) (?:den |les )?(?:knien|genoux)\b|\bde rodillas\b", "on knees"),
    (r"(?<=\d )vueltas?\b(?! (?:al|a la|de pista))", "rounds"),
    (r"(?<=\d)(lb|kg)s\b", r"\1"), (r"(?<=\d) ?#(?![\d#])", " lb"),
    (r"\be m o m +(\d) (\d)\b", r"emom \1\2"), (r"(?<=\d) (?:mal|fois|veces) (?=\d)", " x "), (r"\bhome ?= ?", "home: "),
    (r"\b(?:balón|balon|balle)\b(?= \d)", "ball"),
    (r"runden?\b", "rounds"), (r"rondas?\b", "rounds"), (r"\btours\b", "rounds"),
    (r"sätze?\b|saetze?\b|\bsatz\b|séries?\b", "sets"), (r"\bseries\b(?= (?:de|of|x)\b| ?x)|(?<=\d )series\b", "sets"),
    (r"(?<=sets )(?:zu|à|je|von)(?= \d)", "of"), (r"\bsatzpausen?\b|\bserienpausen?\b|\bdesc\b\.?(?=:? ?\d)|(?<=[,;(] )p(?= ?\d ?(?:min|'|m\b))|(?<=[,;(])p(?= ?\d ?(?:min|'|m\b))", "rest"),
    (r"minuten?\b|minutos?\b", "min"), (r"sekunden?\b|segundos?\b|secondes?\b|\bsek\b\.?", "sec"),
    (r"\bpause\b(?=[ :]*\d+(?:[.,]\d+)?(?:[ ]?-[ ]?\d+(?:[.,]\d+)?)? ?(?:min|:|'))|\bpause\b(?=[ :]*\d+ ?s(?:ec)?\b(?! (?:at|below|in|on|above|over|under)))|(?<=min )pause\b|(?<=\d sec )pause\b(?! (?:at|below|in|on|above|over|under|off|just)\b)|(?<=min\. )pause\b|\bpausen?\b(?= (?:zwischen|nach|between|after))|\brepos\b|\bdescansos?\b|\brécup\w*|\bserienpause\b", "rest"),
    (r"\bpausa\b", "rest"),
    (r"\b(?:pro|je) (?:seite|arm|bein)\b|\b(?:je|pro) seite\b|por (?:lado|pierna|brazo)|(?:par|de chaque) (?:côté|jambe|bras)|chaque côté|cada lado", "each side"),
    (r"(?<=x)( ?\d{1,2}) ?ea?\b\.?(?! ?(?:side|leg|arm|hand|way)|/)", r"\1 each side"), (r"(\bsets? [a-z -]{3,40} \d{1,2})ea?\b", r"\1 each side"), (r"\bw ?/? ?(?=(?:db|kb|dumbbell|kettlebell)s?\b)", "with "),
    (r"\b(db|kb)'s\b", r"\1s"), (r"\bsn\.? ?bal\b\.?", "snatch balance"), (r"(?<=[a-zäöüé] )\d/\d/\d,? (?=(?:week|wk|woche|semaine|semana|cycle|zyklus|w) ?\d)", ""),
    (r"(?<=\d)( ?%) ?/ ?(1[0-2]|[1-9])(?![\dx./%+]|,\d| ?(?:x|%))", r"\1 x \2"), (r"(?<=[,;(] )r ?=? ?(?=\d{2,3}(?:s\b|$|[ ,;)]))(?!(?:1[6-9]|2[0-8])(?![\ds]))(\d{2,3})s?(?! ?(?:m|cal|reps|x)\b)", r"rest \1 s"),
    (r"\bwith the (\d{1,2}(?:\.5)?)(?=\s*(?:$|[.,;)](?!\d)))", r"with \1 kg"), (r"(?<=\d )réps?\b\.?", "reps"), (r"(?:^|(?<=[:;./] ))(squats?|kniebeugen?) ?[-(,] ?(front|back|overhead|box|pause|goblet)\b(?![ -]?off| squat)\)?", r"\2 \1"), (r"\bce soir\b|\bheute abend\b|\besta (?:noche|tarde)\b", "tonight"),
    (r"\bpas du\b", "not of the"), (r"\bdu (?=(?:single|simple|max|1 ?rm)\b)", "of the "), (r"\bvom besten\b|\bdel mejor\b|\bdu meilleur\b", "of best"),
    (r"\b(dominadas?|fondos?|tractions?|dips?|klimmzüge?) (?:lastrad[ao]s?|lestée?s?|mit gewicht)", r"weighted \1"),
    (r"\bfentes? arri[eè]res?\b|\bzancadas? (?:atrás|atras|inversas?|hacia atrás)\b|\bausfallschritte? (?:rückwärts|nach hinten)\b", "reverse lunge"),
    (r"\bfentes? (?:march[ée]e?s?|marchantes?)\b|\bzancadas? caminando\b", "walking lunge"), (r"\bpress (?:de )?hombros?\b", "shoulder press"),
    (r"(?<=[,(] )(?:halt[eè]res?|mancuernas?|kurzhanteln?)\b", "dumbbells"), (r"\bimpaire?s?\b|\bimpar(?:es)?\b", "odd"), (r"(?<=, )paire?s?\b(?= ?:? ?\d)|(?<=, )par(?:es)?\b(?= ?:? ?\d)|^\s*pares?\b(?= ?:)", "even"),
    (r"\bungerade\b|\buneven\b", "odd"), (r"\bgerade\b(?= ?(?:min\w*)?:|(?: min\w*)? \d)", "even"),
    (r"\b(?:min\w* )?(?:dispari|oneven|[ií]mpare?s?|impaire?s?)\b(?: min\w*)?", "odd"), (r"(?:\bmin\w* |(?<=[,;/.] )|^\s*)(?:pari|even|pares|paires?|par)\b(?= ?[:=-]? ?\d)", "even"), (r"(?<=\d) ?(?:met(?:re|er)s?|mtrs?|mts)\b|\bmeter\b|\bmetros\b|\bmètres\b|\bmts\b", "m"),
    (r"\bkcals?\b|\bkalorien\b|\bcalorías\b|\bkal\b", "cal"), (r"\bprozent\b|\bpor ciento\b|\bpour ?cent\b", "%"),
    (r"(?<![a-z])(?:per ?cent|percent|pct)(?![a-wyz])", "%"), (r"\bkilos?\b|\bkgs\b|\bkilogra\w+", "kg"), (r"\bpounds?\b|\blbs\b|\bpfund\b", "lb"),
    (r"(?<=\d) ?mit(?= \d)", " @"), (r"\breps? mit(?= \d)", "reps @"), (r"\b(?:mit|con|avec|à)(?= \d+(?:[.,]\d+)? ?(?:%|kg))", "@"),
    (r"\b(?:al|au|bei|zu)(?= \d+(?:[.,]\d+)? ?%)", "@"), (r"\bmit\b", "with"), (r"\boder\b", "or"), (r"\bund\b", "and"), (r"\bdann\b|\bdanach\b|\bnachher\b|\bluego\b|\bensuite\b|\bpuis\b", "then"),
    (r"\bminuto\b", "min"), (r"\bzu hause\b|\ben casa\b|\bà la maison\b|\bzuhause\b|\bdaheim\b", "home"),
    (r"\bà la place (?:du|de la|des|de l'|de)\s?|\bau lieu (?:du|de la|des|de l'|de)\s?|\ben (?:lugar|vez) del?\b|\banstatt\b|\bstatt\b", "instead of "),
    (r"\bim wechsel\b|\babwechselnd\b|\balternando\b|\ben alternance\b", "alternate"),
    (r"\bwoche\b|\bsemana\b|\bsemaine\b|\bwk ?(?=\d)|\bwks?\b", "week "), (r"\btag (?=\d)|\bdía (?=\d)|\bdia (?=\d)|\bjour (?=\d)", "day "),
    (r"\bjede (\d+) min\b", r"every \1 min"), (r"\bjede min\w*\b|\bcada min\w*\b|\bchaque min\w*\b", "every minute"),
    (r"\bcada (?=\d)|\btoutes les (?=\d)|\balle (?=\d+ (?:min|sec))", "every "),
    (r"\b(dominadas?|tractions?|klimmzüge|fondos|dips?|pull[ -]?ups?|chin[ -]?ups?) (?:lastrad[ao]s?|lestée?s?|con lastre|mit gewicht|con peso|avec lest)\b", r"weighted \1"), (r"\b(sit[ -]?ups?|abdominales|abdos) (?:con peso|lestés|mit gewicht)\b", r"weighted \1"),
    (r"\bn ?= ?(\d{1,2}) ?[;,] ?(?:distance|dist|length) ?= ?(\d+(?:\.\d+)?) ?(km|m)\b", r"\1 x \2 \3"), (r"\b(?:recovery|rest) ?= ?(?=\d)", "rest "), (r"(?<=\d) ?mn\b", " min"),
    (r"\bzone ?([1-5])\b", r"z\1"),
    (r"\blastrad[ao]s?\b|\blestée?s?\b", "weighted"), (r"\ben reserva\b|\ben réserve\b|\bin reserve übrig\b", "in reserve"),
    (r"\bdu jour\b|\bdel d[ií]a\b|\bdes tages\b", "of the day"), (r"\b(?:on )?mont(?:er|e|ez) (?:à|jusqu'à)(?= )|\b(?:subir|sube|buscar|busca) (?:hasta |a )?(?=un|una|\d)|\b(?:hocharbeiten|steigern) (?:bis|auf|zu)\b", "build to "), (r"\bbuild to  +", "build to "),
    (r"\bsimple(?= (?:lourd|heavy|of the day))|\b(?:sencillo|simple)(?= pesad)|\beiner?(?= (?:des tages|of the day))", "single"),
    (r"\b(?:einen?|un|una|une)(?= (?:single|double|triple|max|\drm))", "a"),
    (r"\b(?:de (?:tu|su|ton|votre|ta|vos|tus|leur)|von (?:deinem|eurem|ihrem)|deines|vom besten)\b(?= ?(?:\d{1,2} ?rm|max|best|tm|training|mejor|meilleur))", "of your"),
    (r"\bsteigern\b|\bsteigend\b|\bsubiendo\b|\ben montant\b", "climbing"), (r"\bschwere?[rsn]?\b|\bpesad[oa]\b|\blourde?\b", "heavy"),
    (r"\bheavy (?:einer|1er)\b(?: suchen)?", "heavy single"), (r"\bheavy (?:zweier|2er)\b(?: suchen)?", "heavy double"), (r"\bheavy (?:dreier|3er)\b(?: suchen)?", "heavy triple"),
)  # fmt: skip
_FOREIGN_RULES = tuple((re.compile(pattern), word) for pattern, word in _FOREIGN)
# A capital X is the fastest way up of a tempo, a small one a "times": 31X1, but 80x5
_TEMPO = re.compile(r"(?<![\w.])(?<!empo )(?<!EMPO )@?\(?([0-6][0-6]X[0-5])\)?(?![\w.])")
# "sets 1-2 @ 65 %, 3-4 @ 70 %": the numbers that follow are of sets too
_SET_AT = re.compile(r"\bsets? 1(?: ?(?:[-–&]|and|to) ?\d{1,2})? ?:? ?(?:@|at|(?<=:)|(?<=: )) ?\d{2}")
_NEXT_AT = re.compile(
    r"(?<=[,;/] )(?:then |and )?(\d{1,2}(?: ?(?:[-–&]|and|to) ?\d{1,2})?) ?(?:(?=(?:@|at) ?\d{2})|:(?= ?(?:@ ?|at )?\d{2,3}(?:\.\d)? ?%))"
)
_LOADED = re.compile(r"\b\d{2,3} ?[xX×] ?\d")  # "60X5, 80X5": loads and repetitions, no tempo
_THOUSANDS = re.compile(r"(?<![\d.,])(\d{1,2})[.,](\d{3})(?=\s*(?:m|reps|cal)\b)")
_DECIMAL = re.compile(
    r"(?<![\d.,])(\d+),(\d{1,2})(?=\s*(?:kg|lb|min|cm|km|k\b|sec|h\b|x\b|/|-\s*\d+[.,]\d+\s*(?:kg|lb|%)))"
)
_DECIMAL_PERCENT = re.compile(r"(?<![\d.,])(\d{2,3}),(\d)(?=\s*(?:%|(?:[/;-]|,\s)\s*\d{2,3}(?:[.,]\d)?\s*[%/;,-]))")
_DECIMAL_AT = re.compile(r"((?:@|x)\s*\+?\d+),(\d{1,2})(?=\s*(?:$|[;)]|[^\d\s,x/.-]))")
_DECIMAL_EFFORT = re.compile(r"((?:rpe|rir)[ :=~@]*\d),(5)\b|(?<![\d.,])(\d),(5)(?= ?(?:rpe|rir|/ ?10\b|out of))")
_JERK = re.compile(r"(?<!power )(?<!hang )(?<!squat )\bclean\+ ?jerk\b")
# Lifts of a complex without room beside the plus: "ps+ohs", "hang clean+jerk"; their short names where they stand in one
_PLUS = re.compile(r"(?<![a-z])(?:[a-z]{1,4}\s?\+\s?)+[a-z]{1,4}(?![a-z])|(?<=[a-z])\+(?=[a-z])")
_SHORT_LIFTS = {
    "c": "clean", "cl": "clean", "j": "jerk", "s": "snatch", "sn": "snatch", "ps": "power snatch", "pc": "power clean", "fs": "front squat", "bs": "back squat",
    "ohs": "overhead squat", "hs": "hang snatch", "hc": "hang clean", "hpc": "hang power clean", "hps": "hang power snatch", "pj": "push jerk", "sj": "split jerk",
    "pp": "push press", "sp": "snatch pull", "cp": "clean pull", "dl": "deadlift", "sdl": "snatch deadlift", "cdl": "clean deadlift",
}  # fmt: skip
_DECIMAL_SECOND = re.compile(r"(?<=/)(\d{1,2}),(5|25|75)(?=\s*(?:$|[,;)]|\s|kg|lb))")
_DECIMAL_BARE = re.compile(r"(?<![\d.,])(\+?\d{2,3}),(5|25|75)(?=\s|$|[;)]|,\s|-\d)")


# A share of work and rest, not a minute and a second: "rest 1:1", "1:2 rest"
_AS_LONG = re.compile(
    r"(?<![\d:])[1-4]:[1-4](?![\d:]) ?(?:work[ :/-]*(?:to )?)?rest\b(?: ratio)?|\brest ?[:=]? ?[1-4]:[1-4](?![\d:])"
)


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    """Return a cleaned line in lower case, its number words as digits, its foreign words as those that are read."""
    shouted = text.upper() == text or len(_LOADED.findall(text)) > 1
    text = _TEMPO.sub(
        lambda found: (
            f" tempo {found[1]}" if not shouted or (found[1][0] in "2345" and found[1][3] in "012") else found[0]
        ),
        text,
    ).lower()
    text = other_tongues(text)
    for pattern, word in _FOREIGN_RULES:
        text = pattern.sub(word, text)
    text = _HUNDREDS.sub(_hundreds, text)
    text = _NUMBER_WORD.sub(_digits, text)
    text = as_told(told_otherwise(text))
    text = _ONE_SET.sub("", _AGAIN.sub(r"\1", _SLIPS.sub("0", text)))
    text = _told_in_turn(text)
    text = _SHARE.sub(
        lambda found: f"{found[1]}{'0' if len(found[1]) == 1 else ''} % of ", _COUNT_IS.sub(r"sets = \1", text)
    )
    if _SET_AT.search(text):
        text = _NEXT_AT.sub(r"sets \1: ", text)
    text = _SLOW.sub(r"tempo \1-\2-x-0", text)
    text = shorthand(other_signs(_BY.sub(r"\1 x \2", _FAR_TIMES.sub(" x ", lifters_short(text)))))
    text = _NO_WAIT.sub("", text)
    if "%" in text:
        text = _FROM_TO.sub(
            lambda found: f"@ {found[1]}-{found[2]} %" if int(found[1]) < int(found[2]) else found[0], text
        )
    text = _FOR_BOTH.sub(r" \1/\2", text)
    if "for the" in text or "men" in text:
        text = _ONE_UNIT.sub(_larger_first, text)
    if ">" in text or "→" in text:
        for pattern, word in _PUT_RIGHT:
            text = pattern.sub(word, text)
    if "(" in text and ("lb" in text or "kg" in text):
        text = _OTHER_UNIT.sub(_both_units, text)
    text = _AND_A_HALF.sub(r"\1.5", text)
    text = _THE_OR_THE.sub(lambda found: f"@ {found[1] or found[3]}/{found[2] or found[4]}", text)
    text = _A_UNIT.sub("1 ", text)
    text = _AS_LONG.sub(_share, text)
    text = _THOUSANDS.sub(r"\1\2", text)
    text = _JERK.sub("clean and jerk", text)
    text = _PLUS.sub(_joined, _DECIMAL_EFFORT.sub(lambda found: (found[1] or found[3]) + ".5", text))
    for pattern in (
        _DECIMAL_SECOND,
        _DECIMAL,
        _DECIMAL,
        _DECIMAL_PERCENT,
        _DECIMAL_PERCENT,
        _DECIMAL_AT,
        _DECIMAL_BARE,
    ):
        text = pattern.sub(r"\1.\2", text)
    return text


# "first two at 70, next two at 75, last two at 80": sets told one after the other
_IN_TURN = re.compile(
    r"\b(?:the )?(?P<o>first|next|middle|then|other|second|third|following|remaining|last|final)(?: (?P<n>\d{1,2}))?(?: ?(?:working )?(?:sets?|ones?))? ?(?:are |is |go )?(?:(?:at|@|with|on) ?(?=\d)|(?<=sets )(?=\d{2,3}(?:\.\d)? ?%)|(?<=sets): ?(?=\d{2,3}(?:\.\d)? ?%))"
)


def _told_in_turn(text: str) -> str:
    """Number sets that are told one after the other; left as they are where these words do not begin with the first."""
    found = list(_IN_TURN.finditer(text))
    if len(found) < 2 or found[0]["o"] != "first" or any(each["n"] is None for each in found[:1]):
        return text
    made, at, first = "", 0, 1
    for each in found:
        last = first + int(each["n"] or 1) - 1
        made += text[at : each.start()] + (f"sets {first}-{last}: @ " if last > first else f"set {first}: @ ")
        at, first = each.end(), last + 1
    return made + text[at:]


def _hundreds(found: re.Match[str]) -> str:
    return str(100 * _UNITS[found[1]] + (_TENS | {"ten": 10})[found[2]] + (_UNITS[found[3]] if found[3] else 0))


def _joined(found: re.Match[str]) -> str:
    words = [word.strip() for word in found[0].split("+")]
    if "".join(words) in ("cj", ""):
        return found[0] if words[0] else " + "
    return (
        " + ".join(_SHORT_LIFTS.get(word, word) for word in words)
        if all(word in _SHORT_LIFTS for word in words)
        else " + ".join(words)
    )


def _both_units(found: re.Match[str]) -> str:
    one, two, unit = float(found["a"]), float(found["b"]), found["u"]
    kilos, pounds = (one, two) if unit == "lb" else (two, one)
    if not 2.05 <= pounds / max(kilos, 0.1) <= 2.4 or bool(found["p"]) != bool(found["q"]):
        return found[0]
    return f"{found['a']}{found['p'] or ''} {'kg' if unit == 'lb' else 'lb'}"


def _larger_first(found: re.Match[str]) -> str:
    one, two = found["a"], found["b"] or found["c"]
    larger, smaller = (one, two) if float(one) >= float(two) else (two, one)
    return f"{larger}/{smaller} {found['u']}" if float(smaller) >= 0.4 * float(larger) else found[0]


def _share(found: re.Match[str]) -> str:
    work, rest = (int(each) for each in re.findall(r"[1-4]", found[0])[:2])
    if work == rest:
        return "rest as long as work"
    return "rest longer than work" if rest > work else "rest shorter than work"


def _digits(found: re.Match[str]) -> str:
    tens, ones, hundreds, more, unit = found.groups()
    text, end = found.string, found.end()
    if unit == "one" and not _counts(text, found.start(), end):
        return "one"
    if tens:
        return str(_TENS[tens] + _UNITS.get(ones or "", 0))
    if found[0].endswith("hundred") or hundreds is not None or more:
        first = 1 if hundreds in (None, "a") else _UNITS[hundreds]
        return str(100 * first + (_TENS | {"ten": 10}).get(more or "", 0))
    return str(_UNITS[unit])


def _counts(text: str, start: int, end: int) -> bool:
    before = text[max(0, start - 12) : start]
    if re.search(r"\b(?:two|2) $", before):
        return True  # "three two one"
    if before.endswith(("minute ", "min ", "station ", "heavy ", "sets of ", "set of ", "week ", "day ")):
        return True
    if re.match(r" (?:last|final|more|top) sets?\b", text[end : end + 16]):
        return True
    if _ONE_AT.match(text, end) and not before.endswith(("the ", "that ", "this ", "which ")):
        return True
    return _COUNTED.match(text, end) is not None and not before.endswith(
        ("the ", "any ", "this ", "that ", "every ", "each ", "no ")
    )
