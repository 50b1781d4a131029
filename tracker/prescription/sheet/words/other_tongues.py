"""Number words and the small words of sessions in Dutch, French, German, Italian, Portuguese and Spanish.

What gyms of these languages write beside the trade's English: common practice. Names of movements are in names.txt.
"""

from __future__ import annotations

import re

_DE = {"ein": 1, "zwei": 2, "drei": 3, "vier": 4, "fünf": 5, "sechs": 6, "sieben": 7, "acht": 8, "neun": 9}
_DE_TENS = {"zwanzig": 20, "dreißig": 30, "dreissig": 30, "vierzig": 40, "fünfzig": 50, "sechzig": 60, "siebzig": 70, "achtzig": 80, "neunzig": 90}  # fmt: skip
_NL = {"een": 1, "twee": 2, "drie": 3, "vier": 4, "vijf": 5, "zes": 6, "zeven": 7, "acht": 8, "negen": 9}
_NL_TENS = {"twintig": 20, "dertig": 30, "veertig": 40, "vijftig": 50, "zestig": 60, "zeventig": 70, "tachtig": 80, "negentig": 90}  # fmt: skip
_IT = {"uno": 1, "due": 2, "tre": 3, "quattro": 4, "cinque": 5, "sei": 6, "sette": 7, "otto": 8, "nove": 9}
_IT_TENS = {"venti": 20, "trenta": 30, "quaranta": 40, "cinquanta": 50, "sessanta": 60, "settanta": 70, "ottanta": 80, "novanta": 90}  # fmt: skip
_ES = {"uno": 1, "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "nueve": 9}
_ES_TENS = {"treinta": 30, "cuarenta": 40, "cincuenta": 50, "sesenta": 60, "setenta": 70, "ochenta": 80, "noventa": 90}
_PT = {"um": 1, "dois": 2, "três": 3, "quatro": 4, "cinco": 5, "seis": 6, "sete": 7, "oito": 8, "nove": 9}
_PT_TENS = {"vinte": 20, "trinta": 30, "quarenta": 40, "cinquenta": 50, "sessenta": 60, "setenta": 70, "oitenta": 80, "noventa": 90}  # fmt: skip
_FR = {"un": 1, "deux": 2, "trois": 3, "quatre": 4, "cinq": 5, "six": 6, "sept": 7, "huit": 8, "neuf": 9}
_FR_TENS = {"vingt": 20, "trente": 30, "quarante": 40, "cinquante": 50, "soixante": 60}


def _numbers() -> dict[str, int]:
    """Number words that are none of English, each with its number."""
    found = {
        "dreizehn": 13, "vierzehn": 14, "sechzehn": 16, "siebzehn": 17, "achtzehn": 18, "neunzehn": 19, "hundert": 100, "fuenf": 5, "zwoelf": 12, "fünfzehn": 15, "fuenfzehn": 15,
        "tien": 10, "twaalf": 12, "dertien": 13, "veertien": 14, "vijftien": 15, "zestien": 16, "zeventien": 17, "achttien": 18, "negentien": 19, "honderd": 100,
        "dieci": 10, "undici": 11, "dodici": 12, "tredici": 13, "quattordici": 14, "quindici": 15, "sedici": 16, "diciassette": 17, "diciotto": 18, "diciannove": 19, "cento": 100,
        "trece": 13, "catorce": 14, "dieciséis": 16, "dieciseis": 16, "diecisiete": 17, "dieciocho": 18, "diecinueve": 19, "veintiuno": 21, "veinticuatro": 24, "veinticinco": 25,
        "dez": 10, "doze": 12, "treze": 13, "quatorze": 14, "catorze": 14, "dezesseis": 16, "dezasseis": 16, "dezoito": 18, "treize": 13, "seize": 16,
        "septante": 70, "huitante": 80, "nonante": 90,
    }  # fmt: skip
    for tens, ten in _DE_TENS.items():
        found |= {tens: ten} | {f"{one}und{tens}": ten + number for one, number in _DE.items()}
    for tens, ten in _NL_TENS.items():
        found |= {tens: ten}
        for one, number in _NL.items():
            found |= {f"{one}en{tens}": ten + number, f"{one}ën{tens}": ten + number}
    for tens, ten in _IT_TENS.items():
        found |= {tens: ten} | {(tens[:-1] if one[0] in "uo" else tens) + one: ten + number for one, number in _IT.items()}  # fmt: skip
    for tens, ten in _ES_TENS.items():
        found |= {tens: ten} | {f"{tens} y {one}": ten + number for one, number in _ES.items()}
    for tens, ten in _PT_TENS.items():
        found |= {tens: ten} | {f"{tens} e {one}": ten + number for one, number in _PT.items()}
    for tens, ten in _FR_TENS.items():
        for one, number in _FR.items():
            found |= {f"{tens}-{one}": ten + number, f"{tens} {one}": ten + number}
    teens = {"dix": 10, "onze": 11, "douze": 12, "treize": 13, "quatorze": 14, "quinze": 15, "seize": 16}
    for base, start in (("soixante", 60), ("quatre-vingt", 80), ("quatre vingt", 80), ("quatre-vingts", 80)):
        found |= {base: start}
        for one, number in (teens | _FR).items():
            found |= {f"{base}-{one}": start + number, f"{base} {one}": start + number}
    found |= {word: number for table in (_NL, _PT, _IT) for word, number in table.items() if word not in _ENGLISH}
    return found


# Words that are of another meaning in English or in another of these languages: they count before what is counted alone
_ENGLISH = frozenset({"een", "due", "sei", "uno", "um", "vier", "acht"})
_NUMBERS = _numbers()
_NUMBER = re.compile(rf"(?<![\w-])(?:{'|'.join(sorted(map(re.escape, _NUMBERS), key=len, reverse=True))})(?![\w])")
_COUNTED = re.compile(
    r"\b(?P<n>ein|eins|eine|een|due|sei|uno|un|una|um|uma|une|once|sept|six)(?= (?:rm\b|runden?|sätze?|saetze?|min\w*|wiederholung\w*|giri|serie|rip\w*|volte|minut\w*|rondes?|sets?\b|keer|voltas?|rodadas?|s[ée]ries?|repeti\w*|répéti\w*|tours?|fois|vueltas?|rondas?|mal\b|x\b|per\b|%|prozent))"
)
_ONES = {"ein": 1, "eins": 1, "eine": 1, "een": 1, "due": 2, "sei": 6, "uno": 1, "un": 1, "una": 1, "um": 1, "uma": 1, "une": 1, "once": 11, "sept": 7, "six": 6}  # fmt: skip

_OF = r"(?:del|do|da|della|van(?: je| jouw| de| het| jullie)?|vom|von(?: eurem| deinem)?|vanuit|sul|sulla|su|du|de (?:ton|ta|votre|tu|su)|de(?= \d))"
_WORDS: tuple[tuple[str, str], ...] = (
    (r"(?<=\d )(?:varv|runder|omgångar|rundy?|rundę|kola|kol|kolo)\b", "rounds"), (r"\bpå tid(?:en)?\b|\bna czas\b|\bna čas\b", "for time"),
    (r"\b(?:vila|hvile|przerwa|przerwy|pauza)\b(?= ?\d)", "rest"), (r"(?<=min )(?:vila|hvile|pause|przerwy)\b", "rest"), (r"\b(?:på|op|na)(?= \d{2,3}(?:[.,]\d)? ?(?:%|$|\(|,(?! ?\d)))", "@"),
    (r"\b(?:eller|oppure|lub|nebo|albo)\b", "or"), (r"(?:(?<=\s)|^)(?:sen|sedan|deretter|etterpå|potem|potom|pak)(?=[ :,])", "then"),
    (r"\b(?:hemma|hjemme|w domu|doma)(?=\s*:)", "home"), (r"\b(?:lätt variant|lettere|skala|skalowanie|łatwiej|lehčí(?: var(?:ianta)?\.?)?)(?=\s*:)", "scaled"),
    (r"^(\W*)(?:chi non (?:fa|riesce|ha)|quem não (?:faz|tem)|qui ne (?:fait|peut) pas|quien no (?:hace|puede|tiene)|wer keinen? .{0,20}(?=kann)) (?:de |le |les |la |i |gli )?([\w -]{3,20}?)(?: kann| schafft)? ?:", r"\1no \2:"),
    (r"\b(?:prozent|procent|per cento|percento|por cento|por ciento|pour ?cent)\b", "%"),
    # of the north and the east: rounds, for time, cap, every so many minutes, rest
    (r"(?<=\d )(?:runder|omgange|varv|rundy|rund|rundek|kierrosta|kierr\.?|kör|körök)(?=[\s,:.]|$)", "rounds"), (r"\bpå tid\b|\bna czas\b|\baikaa vastaan\b|\bidőre\b", "for time"),
    (r"\b(?:tidsgrænse|tidsgrense|tidsgräns|katto|limit|időlimit)\b(?=:? ?\d)", "cap"), (r"\bhver (?=\d)|\bco (?=\d+ ?min)|\bvar (?=\d+ ?min)", "every "), (r"(?<=every )(\d)\. ?min\b", r"\1 min"),
    (r"^\W*páratlan(?: perc)?\b", "odd"), (r"^\W*páros(?: perc)?\b", "even"),
    (r"\b(?:skala|skalering|kevyempi|lettere|lättare|łatwiej)(?= ?:)", "scaled"), (r"\bthuisversie(?= ?:)", "home"),
    (r"\b(?:przerwa|tauko|pihenő|hvile|vila)\b:?(?= ?\d)", "rest"), (r"(?<=\d )(?:perc|minuuttia|minut)\b", "min"), (r"(?<=\d )(?:kalorier|kalorii|kaloria|kcal)\b", "cal"), (r"\bhjemme(?=:)|\bhemma(?=:)|\bw domu(?=:)|\bkotona(?=:)|\botthon(?=:)", "home"),
    # sets, repetitions, rounds
    (r"\bserie(?= (?:da|di|x)\b)|(?<=\d )serie\b|\breeksen\b|\breeks\b|\bs[ée]ries(?= de\b)|(?<=\d )s[ée]ries\b", "sets"),
    (r"(?<=sets )(?:da|di|van|de|com|con|met|mit|à)(?= \d)", "of"),
    (r"\bripetizion[ei]\b|\brip\b\.?(?=\s|$|[,;)])|\bherhaling(?:en)?\b|\brepeti[cç](?:ão|ões|oes)\b|\bherh\b\.?", "reps"),
    (r"(?<=\d )(?:giri|giro(?! russ?o)|rondes?|rondjes|voltas|rodadas|vueltas)\b", "rounds"), (r"\bronde(?=s?\b)", "round"),
    (r"\bminut[io]\b|\bminuut\b|\bminuten\b|(?<=\d)minuut\b", "min"), (r"\bsecondi\b|\bseconden\b|\bsegundos\b|\bsekonden\b", "sec"),
    # rest
    (r"\b(?:rec|recupero|riposo|rust|pauze|rusten|intervalo|descanso|pausa|rst)\b\.?:?(?= ?(?:di |van |de |tra |tussen |entre )?\d)", "rest"), (r"(?<=rest )(?:di|van|de) (?=\d)", ""),
    (r"(?<=\d min )(?:di |de |)(?:rec|recupero|riposo|rust|pauze|intervalo|descanso|pausa)\b|(?<=\d' )(?:rec|recupero|riposo|rust|pauze)\b", "rest"),
    (r"\b(?:riposo|rust|pauze|descanso)\b", "rest"),
    # what a percentage is of
    (rf"(?<=% )?\b{_OF} (?=\d{{1,2}} ?rm\b)", "of your "), (rf"(?<=%) {_OF} (?:massimale|max\b|massimo|maximum|m[aá]ximo|maximaal|1er max)", " of your max"),
    (r"\b(?:massimale)\b", "max"),
    (r"^\W*(?:alles?|tutto|tutti|todos?|tudo|tout|toutes?) (?=of (?:your|the)|%|\d)", "all "),
    (r"\ball'(?=\d{2,3}(?:[.,]\d)? ?%)|\b(?:al|à|bei|op|aan|a)(?= \d{2,3}(?:[.,]\d)? ?%)", "@"),
    # sides, people, kit
    (r"\bc/ ?(?:pierna|lado|brazo|perna|braço|u)\b|\bper (?:lato|gamba|braccio|kant|been|zijde)\b|\b(?:por|cada|em cada) (?:perna|braço|lado|pierna|brazo)\b|\bogni (?:lato|gamba|braccio)\b|\belke (?:kant|arm|been)\b", "each side"),
    (r"\b(?:uomini|mannen|heren|homens)\b", "men"), (r"\b(?:donne|vrouwen|dames|mulheres)\b", "women"),
    (r"(?<=\d )(?:chili|kilo'?s|quilos)\b", "kg"), (r"(?<=\d )(?:libbre|libras|pond)\b", "lb"), (r"(?<=\d )metri\b", "m"),
    (r"\bcon (?:i |due )?manubri\b|\bmet dumbbells\b|\bcom halteres\b", "with dumbbells"),
    # one thing after the other, clocks
    (r"(?:(?<=\s)|^)(?:poi|dopo di che|in seguito|daarna|vervolgens|depois|em seguida|a seguir)(?=[ :,])", "then"),
    (r"\bogni min\w*\b(?! \d)|\belke min\w*\b(?! \d)|\ba cada min\w*\b", "every minute"), (r"\b(?:ogni|elke|a cada|om de) (?=\d)", "every "),
    (r"\bper tempo\b|\bvoor tijd\b|\bop tijd\b|\bpor tempo\b|\bcontro il tempo\b|\btegen de klok\b", "for time"),
    (r"\b(?:tempo (?:massimo|limite)|tijdslimiet|limite de tempo|tempo máximo|zeitlimit)\b", "cap"),
    # how heavy
    (r"\b(?:schwere[rs]? (?:einzelwiederholung|einer|einzelne)|singol[ao] pesante|simple lourde?|single lourde?|individual pesad[ao]|single pesad[ao]|simples pesad[ao]|zware (?:enkele|single|1)|schwere[rs]? single)\b", "heavy single"),
    (r"\b(?:schwere[rs]? (?:zweier|doppelte|double)|doppi[ao] pesante|double lourde?|dobl?e pesad[ao]|dupla pesada|zware (?:dubbele|double))\b", "heavy double"),
    (r"\b(?:schwere[rs]? (?:dreier|triple)|tripl[ao] pesante|triple lourde?|triple pesad[ao]|tripla pesada|zware (?:triple|drievoudige))\b", "heavy triple"),
    (r"\b(?:pesante|pesanti|zwaar|zware)\b", "heavy"), (r"\b(?:lascia|laisse|lasst?|deja|deixa|hou|houd) (?=\d )", "leave "),
    (r"\b(?:in riserva|di riserva|in reserve|em reserva|en réserve)\b", "in reserve"), (r"\bbuffer ?(?=\d)", "rir "),
    (r"\b(?:opbouwen (?:naar|tot)|salire (?:fino )?a|sali (?:fino )?a|subir at[ée]|montar at[ée])\b", "build to"),
    (r"\b(?:thuis|a casa|em casa)(?=\s*:)", "home"), (r"\bgiorno (?=\d)|\bdag (?=\d)", "day "), (r"\bsettimana (?=\d)", "week "),
)  # fmt: skip
_RULES = tuple((re.compile(pattern), word) for pattern, word in _WORDS)


def other_tongues(text: str) -> str:
    """Return a line in small letters with the number words and small words of other languages in the form that is read."""
    text = _NUMBER.sub(lambda found: str(_NUMBERS[found[0]]), text)
    text = _COUNTED.sub(lambda found: str(_ONES[found["n"]]), text)
    for pattern, word in _RULES:
        text = pattern.sub(word, text)
    return text
