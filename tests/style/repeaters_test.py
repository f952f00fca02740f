"""QML: a Repeater whose number of items can change stands in a positioner (Row, Column, Flow), never in a layout.

A layout of Qt 6.4 keeps what is taken out of it until its next frame, and reads it when it is given another size
before: after the item has been deleted the program ends there. A closed sheet has no next frame. Positioners forget at
once. A list of fixed length (a number, a list written down, a property that is one) may stand in a layout.
"""
import re
import sys

import tree

LAYOUT = re.compile(r"(Row|Column|Grid|Stack)Layout")
OBJECT = re.compile(r"(?:component\s+(?P<named>\w+)\s*:\s*)?(?P<type>[\w.]*)\s*\{|\}")
DEFAULT = re.compile(r"default property alias \w+:\s*(\w+)\.")
MODEL = re.compile(r"\bmodel:\s*(\d+\s*$|\[|(?:\w+\.)?(\w+)\s*$)?", re.M)
DEEPEST = 8


class Object:
    def __init__(self, match, parent):
        self.type, self.named = match["type"].split(".")[-1], match["named"]
        self.parent, self.start, self.end = parent, match.end(), match.end()


def blank(match):
    return re.sub(r"[^\n]", " ", match.group())


def objects(text):
    """Every object of a file, outer ones first; blocks of script and bindings are passed over."""
    plain = re.sub(r'//[^\n]*|"(?:[^"\\\n]|\\.)*"', blank, text)
    open_blocks, found = [], []
    for match in OBJECT.finditer(plain):
        if match.group() == "}":
            closed = open_blocks.pop()
            if closed:
                closed.end = match.start()
        elif re.match(r"[A-Z]", match["type"].split(".")[-1]):
            parent = next((o for o in reversed(open_blocks) if o), None)
            found.append(Object(match, parent))
            open_blocks.append(found[-1])
        else:
            open_blocks.append(None)
    return found


class Tree:
    def __init__(self):
        self.texts = {p.stem: p.read_text(encoding="utf-8") for p in tree.files(".qml")}
        self.objects = {name: objects(text) for name, text in self.texts.items()}

    def is_layout(self, wanted, file, depth=0):
        """Whether what is written inside a `wanted` of this file comes to stand in a layout."""
        if LAYOUT.fullmatch(wanted) or depth == DEEPEST:
            return bool(LAYOUT.fullmatch(wanted))
        for part in self.objects[file]:
            if part.named == wanted:
                return self.is_layout(part.type, file, depth + 1)
        if wanted not in self.texts:
            return False
        return self.is_layout(self.inner(wanted), wanted, depth + 1)

    def inner(self, file):
        """The type that holds the content of the one this file describes."""
        text, parts = self.texts[file], self.objects[file]
        content = DEFAULT.search(text)
        if content:
            for part in parts:
                if re.match(rf"\s*id:\s*{content[1]}\s*$", text[part.start:part.end], re.M):
                    return part.type
        return parts[0].type

    def fixed(self, file, repeater):
        text = self.texts[file]
        model = MODEL.search(text, repeater.start, repeater.end)
        if model is None or model[1] is None:
            return False
        return model[2] is None or bool(re.search(rf"readonly property var {model[2]}: \[", text))

    def faults(self, path):
        for part in self.objects[path.stem]:
            if part.type == "Repeater" and part.parent and not self.fixed(path.stem, part) \
                    and self.is_layout(part.parent.type, path.stem):
                line = self.texts[path.stem].count("\n", 0, part.start) + 1
                yield f"{tree.shown(path)}:{line}: this Repeater stands in a layout"


def main():
    known = Tree()
    found = [fault for path in tree.files(".qml") for fault in known.faults(path)]
    return tree.end(found, "Put each into a Column, a Row or a Flow.")


if __name__ == "__main__":
    sys.exit(main())
