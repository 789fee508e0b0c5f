"""The phrases that a letter is searched for, one idea a line, English and Spanish. Matched without regard to case."""

from __future__ import annotations

import re

_NUMBER_WORDS = """
one two three four five six seven eight nine ten eleven twelve fifteen twenty thirty forty fifty sixty seventy eighty
ninety hundred thousand dos tres cuatro cinco seis siete ocho nueve diez veinte treinta cuarenta cincuenta cien ciento
doscientos trescientos quinientos mil
"""
_COUNT = rf"(?:\d(?:[\d.,]{{0,30}}\d)?|{'|'.join(_NUMBER_WORDS.split())})"
_SIGN = r"(?:US|U\.S\.)?\s?[$€£]\s?"
_ABOUT = (
    r"(?:(?:about|around|over|nearly|roughly|approximately|at least|more than|some|unos|alrededor de|más de|casi) )?"
)
_GIVE = (
    r"(?:give|donate|contribute|support|sponsor|lend|send|share|spare|provide|supply|offer|pledge|chip in|help us|help "
    r"(?:with|by)|help again|keep (?:giving|helping|supporting)|set aside|save|part with|drop off|bring us|let us "
    r"(?:have|use|borrow))"
)
_GIVING = r"(?:giving|donating|contributing|supporting|sponsoring|helping|lending|sending|sharing|sparing)"
_DAR = r"(?:donar|dar(?:nos)?|ayudar(?:nos)?|apoyar(?:nos)?|enviar(?:nos)?|prestar(?:nos)?|contribuir|regalar(?:nos)?)"
# Worth of time and effort, not of money.
_WORTH_TIME = (
    r"of|it|while|the (?:wait|effort|trip|time|work|drive)|every (?:minute|hour|bit|step|mile)|"
    r"(?:seeing|knowing|keeping|doing|celebrating|sharing|remembering|waiting)|a (?:visit|try|look|thousand words)"
)


def _any(*phrases: str) -> re.Pattern[str]:
    return re.compile("|".join(f"(?:{phrase})" for phrase in phrases), re.IGNORECASE)


VALUE = _any(
    rf"{_SIGN}\d[\d,]*(?:\.\d+)?",
    r"\bUSD\s?\d[\d,.]*",
    rf"\b(?:{_COUNT}[ -](?:and |y )?){{0,12}}(?:US |U\.S\. )?(?:dollars?|bucks|usd|dólar(?:es)?|dolar(?:es)?)\b",
    rf"\b(?:{_COUNT}[ -]){{1,12}}(?:cents?|centavos)\b|\d\s?¢",
    rf"\bworth\b(?! (?:{_WORTH_TIME})\b)(?: {_ABOUT}{_COUNT})?",
    rf"\b{_COUNT} worth of\b",
    r"\bvalued (?:at|between|from)\b",
    r"\b(?:fair|market|retail|estimated|approximate|appraised|replacement|cash|dollar|monetary|total|book|resale)"
    r"(?: market)? (?:value|price|cost)\b",
    r"\b(?:of|with|has|have|had|at) a value\b",
    rf"\bvalues? (?:is|was|are|were|of) {_ABOUT}{_COUNT}\b",
    r"\b(?:list|sale|regular|store|shelf) price\b",
    r"\bvalor (?:de|estimado|aproximado|comercial|total|en el mercado)\b",
    r"\b(?:valorad|valuad|avaluad|tasad)[oa]s? en\b",
    rf"\b(?:valen?|cuestan?|costó|costaron) {_ABOUT}{_COUNT}\b",
    r"\bprecio\b",
)

NOTHING_IN_RETURN = _any(
    r"\bnothing (?:\w+ ){0,3}?(?:in|for) (?:return|exchange)\b",
    r"\b(?:asked|wanted|expected|took|got|received|gave you) nothing (?:back|for it)\b",
    r"\bwithout (?:getting|receiving|asking|taking|expecting)(?: for)? (?:anything|something|a thing)\b",
    r"\b(?:not|n't|never) (?:\w+ ){0,3}?(?:anything|something) (?:back|(?:\w+ ){0,2}?in (?:return|exchange))\b",
    r"\bno (?:goods|benefits?|services?|products?|consideration)\b[^.!?\n]{0,60}?"
    r"\b(?:were|was|have been|has been|in (?:return|exchange)|provided|given|received)\b",
    r"\b(?:not|n't) (?:provide|give|receive|get|offer|return|exchange)(?:d|n)?(?: you| us)? (?:any )?"
    r"(?:goods|services|benefits?)\b",
    r"\bnada a cambio\b",
    r"\bsin (?:recibir|pedir|esperar) (?:nada|algo)\b",
    r"\bsin contraprestación\b",
    r"\bning(?:ún|un|unos) (?:bien(?:es)?|producto|servicio),? (?:o|u|ni) (?:ningún |ningun )?servicios?\b",
    r"\bno (?:se )?(?:le |les )?(?:entreg|proporcion|recib|ofrec|dimos|dio|dieron)\w*[^.!?\n]{0,40}?\bbienes\b",
)

ASKS = _any(
    rf"\b(?:would|could|can|will|might) (?:you|your \w+|anyone)(?: \w+){{0,3}}? (?:consider|{_GIVE}|{_GIVING})\b",
    rf"\b(?:chance|perhaps|maybe|be able to|feel free to)\b[^.!?\n]{{0,30}}? {_GIVE}\b",
    rf"\bif (?:you|your \w+|anyone) (?:ever |also |still )?(?:can|could|would|might|are|is|wish|want|have|has)\b"
    rf"(?: \w+){{0,5}}? {_GIVE}\b",
    rf"\b(?:please|kindly) (?:\w+ )?(?:consider|{_GIVE})\b(?! (?:our|my|these|this|the|it|them|your pictures?)\b)",
    r"\bplease (?:\w+ )?(?:share|send|give)(?: us)? (?:any|more|some|your (?:extra|spare|old))\b",
    r"\b(?:also|still|now|really|badly|always|urgently) (?:need|want|looking for)\b",
    r"\bwe(?:'re| are)? (?:need|in need of|short of|short on|running (?:low|short|out)|looking for|lack|lacking|"
    r"collecting)\b",
    r"\bwe (?:cannot|can't|could not|couldn't) afford\b",
    r"\b(?:we|i) could (?:really |always |also )?use\b",
    r"\b(?:hope|hoping|ask|asking|love|wonder(?:ing)?|wish)(?: (?:that|if|whether|for))? you(?:r \w+)?"
    rf"(?: \w+){{0,4}}? (?:{_GIVE}|{_GIVING})\b",
    r"\b(?:give|donate|contribute|giving|donating|contributing|sponsor us|support us|help us) (?:\w+ )?"
    r"(?:again|next year|once more|in (?:the )?future)\b",
    r"\b(?:make|making|send|for) another (?:gift|donation|contribution)\b",
    r"\b(?:next|further|future|additional) (?:gift|donation|contribution)s?\b",
    r"\bmake a (?:gift|donation|pledge|contribution)\b(?! of your)",
    r"\bwould it be possible\b|\b(?:may|could|can|might) we (?:ask|borrow|use|get|come back|count|collect|pick up|"
    r"have (?:more|another|some|any|the|your|a))\b",
    r"\b(?:any|more|another|extra|second)\b[^.!?\n]{0,40}? would (?:help|be (?:a help|(?:\w+ )?(?:welcome|wonderful|"
    r"great|appreciated|useful|helpful)))\b",
    r"\bhop(?:e|ing) for (?:more|another|any|further)\b|\bwe have (?:nothing|none|no more|no \w+) left\b",
    r"\b(?:we|i)(?: would|'d) (?:\w+ )?(?:welcome|appreciate|love|like|be (?:\w+ )?(?:grateful|thankful|glad) "
    r"(?:for|of)) (?:more|any|another|further|some)\b",
    r"\blet (?:us|me) know (?:if|when|whether) (?:more|any|you have|you can|there is|there are)\b",
    r"\b(?:remember us|think of us|keep us in mind)\b(?! fondly)",
    r"\byour (?:support|help|gift|generosity) (?:next|this coming) \w+",
    r"\b(?:to|can|could|please) sponsor\b|\b(?:fund|goal|drive) is (?:\w+ )?(?:only|still|not yet|half|short)\b",
    r"\bwish ?list\b",
    r"\bcounting on (?:you|your)\b|\bcount on (?:you|your \w+) (?:again|next year|in the future)",
    r"\b(?:your|for) (?:next|continued|continuing|ongoing) (?:gift|donation|support|generosity|giving|help)\b",
    r"\b(?:budget|funds|funding|money) (?:is|are|was|were|has been|have been) (?:\w+ )?"
    r"(?:tight|short|cut|gone|low|limited|small)\b",
    r"\b(?:no|little|almost no) (?:budget|funding|money) for\b",
    rf"\b(?:podrí|pued|podrá)\w*(?: \w+){{0,3}}? {_DAR}\b",
    r"\bpor favor,? (?:considere|done|ayúde|ayude|envíe|dé|apoye|apóye|contribuya)\w*\b",
    r"\bnecesitamos\b|\bnos hacen? falta\b|\bnos faltan?\b|\bestamos buscando\b",
    rf"\bvolver a {_DAR}\b|\b{_DAR} (?:otra vez|de nuevo|el próximo año)\b",
    r"\blista de deseos\b|\b(?:próxima|otra) donación\b|\bhaga una donación\b",
    r"\besperamos (?:contar|seguir contando|recibir|su (?:apoyo|ayuda))\b|\bcontamos con (?:usted|su)\b",
    r"\b(?:presupuesto|fondos) (?:es|está|son|están) (?:muy )?(?:limitad|bajo|cort|poc)\w*\b",
)

# The group "no" says that it is not; a sentence that only says how far a deduction goes does not call the gift one.
DEDUCTIBLE = re.compile(
    r"(?P<no>\b(?:not|isn't|aren't|never|no|cannot|can't|sin)\b[^.!?\n]{0,30})?"
    r"\b(?:(?:tax[- ])?deductible|tax[- ]deduct\w+|deduct (?:this|your|it|the)"
    r"|charitable (?:gift|contribution|deduction)|deducibles?|deducción|deducir(?! se limita)"
    r"|write it off|tax write-?off)\b",
    re.IGNORECASE,
)
