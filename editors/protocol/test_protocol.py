"""The real server under the capabilities of three editors, and of one that takes what LSP 3.18 has beyond
theirs; every message that it sends is read into the types of LSP 3.18, and one that does not fit fails the
test."""

import os
import shutil
from pathlib import Path

import pytest
import pytest_lsp
from lsprotocol import types as lsp
from pytest_lsp import ClientServerConfig, LanguageClient, client_capabilities

EXAMPLES = Path(__file__).parents[2] / "examples"
EDITORS = ["neovim", "visual_studio_code", "emacs", "newer"]


# What the server may ask of an editor that offers it, answered as an editor does: with nothing.
ASKED_BACK = [
    lsp.CLIENT_REGISTER_CAPABILITY,
    lsp.CLIENT_UNREGISTER_CAPABILITY,
    lsp.WORKSPACE_CODE_LENS_REFRESH,
    lsp.WORKSPACE_INLAY_HINT_REFRESH,
    lsp.WORKSPACE_SEMANTIC_TOKENS_REFRESH,
]


def offered(editor):
    """What an editor says that it can."""
    if editor != "newer":
        return client_capabilities(editor)
    can = client_capabilities("visual_studio_code")
    can.workspace.workspace_edit.snippet_edit_support = True
    can.text_document.range_formatting.ranges_support = True
    return can


@pytest.fixture(scope="module")
def pens(tmp_path_factory):
    folder = tmp_path_factory.mktemp("pens")
    shutil.copytree(EXAMPLES, folder, dirs_exist_ok=True)
    return folder


@pytest_lsp.fixture(
    config=ClientServerConfig(server_command=[os.environ["QUILLET"], "lsp"]), params=EDITORS
)
async def client(lsp_client: LanguageClient, request, pens):
    params = lsp.InitializeParams(
        capabilities=offered(request.param),
        workspace_folders=[lsp.WorkspaceFolder(uri=pens.as_uri(), name="pens")],
    )
    for method in ASKED_BACK:
        lsp_client.feature(method)(lambda params: None)
    lsp_client.pulls = bool(params.capabilities.text_document.diagnostic)
    lsp_client.offers = params.capabilities
    lsp_client.said = await lsp_client.initialize_session(params)
    yield lsp_client
    await lsp_client.shutdown_session()


def opened(client, pens, name):
    uri = (pens / name).as_uri()
    text = (pens / name).read_text()
    client.text_document_did_open(
        lsp.DidOpenTextDocumentParams(
            text_document=lsp.TextDocumentItem(uri=uri, language_id="quillet", version=1, text=text)
        )
    )
    return lsp.TextDocumentIdentifier(uri=uri), text


async def findings(client, document):
    """Asked for where the editor asks, else as published."""
    if client.pulls:
        report = await client.text_document_diagnostic_async(
            lsp.DocumentDiagnosticParams(text_document=document)
        )
        return report.items
    # Any file of the folder may be the first that is published.
    while document.uri not in client.diagnostics:
        await client.wait_for_notification(lsp.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
    return client.diagnostics[document.uri]


def words(text):
    """The place of every word of a text."""
    for number, line in enumerate(text.splitlines()):
        for column, sign in enumerate(line):
            if not sign.isspace() and (column == 0 or line[column - 1].isspace()):
                yield lsp.Position(line=number, character=column)


def whole(text):
    return lsp.Range(lsp.Position(0, 0), lsp.Position(len(text.splitlines()), 0))


@pytest.mark.asyncio
async def test_findings_carry_rule_places_and_page(client, pens):
    document, _ = opened(client, pens, "knot.quillet")
    found = await findings(client, document)
    assert len({it.code for it in found}) >= 8
    assert all(it.source == "quillet" and it.message for it in found)
    assert any(it.related_information for it in found)


@pytest.mark.asyncio
async def test_words_answer_what_stands_under_it(client, pens):
    document, text = opened(client, pens, "heron.quillet")
    told = 0
    for position in list(words(text))[::3]:
        at = {"text_document": document, "position": position}
        hover = await client.text_document_hover_async(lsp.HoverParams(**at))
        told += hover is not None
        await client.text_document_definition_async(lsp.DefinitionParams(**at))
        await client.text_document_type_definition_async(lsp.TypeDefinitionParams(**at))
        await client.text_document_document_highlight_async(lsp.DocumentHighlightParams(**at))
        await client.text_document_signature_help_async(lsp.SignatureHelpParams(**at))
        await client.text_document_linked_editing_range_async(lsp.LinkedEditingRangeParams(**at))
        await client.text_document_references_async(
            lsp.ReferenceParams(context=lsp.ReferenceContext(include_declaration=True), **at)
        )
        renamed = await client.text_document_prepare_rename_async(lsp.PrepareRenameParams(**at))
        if renamed is not None:
            await client.text_document_rename_async(lsp.RenameParams(new_name="tern", **at))
    assert told > 30


@pytest.mark.asyncio
async def test_words_offer_what_may_stand_there(client, pens):
    document, text = opened(client, pens, "heron.quillet")
    offered = 0
    for position in list(words(text))[::5]:
        answer = await client.text_document_completion_async(
            lsp.CompletionParams(text_document=document, position=position)
        )
        items = getattr(answer, "items", answer) or []
        assert all(item.text_edit is not None for item in items)
        offered += len(items)
        for item in items[:2]:
            await client.completion_item_resolve_async(item)
    assert offered > 100


async def fixes_of(client, document, found):
    """What is offered for a finding."""
    context = lsp.CodeActionContext(diagnostics=[found])
    params = lsp.CodeActionParams(text_document=document, range=found.range, context=context)
    return await client.text_document_code_action_async(params)


@pytest.mark.asyncio
async def test_every_finding_answers_its_fixes(client, pens):
    document, _ = opened(client, pens, "knot.quillet")
    fixes = 0
    for found in await findings(client, document):
        actions = await fixes_of(client, document, found)
        fixes += len(actions or [])
    assert fixes > 0


THIN = """part section from tip to shank {
  blank of acrylic rod 13
  length  30
  outside dia 11
  from shank {
    tenon  9.75 for 8
    thread M10x0.75 outside for 6
  }
}
"""


@pytest.mark.asyncio
async def test_what_is_newer_goes_to_who_takes_it(client, pens):
    (pens / "thin.quillet").write_text(THIN)
    document, _ = opened(client, pens, "thin.quillet")
    options = lsp.FormattingOptions(tab_size=2, insert_spaces=True)
    line = lambda at: lsp.Range(lsp.Position(at, 0), lsp.Position(at, 3))
    takes = client.offers.text_document.range_formatting
    said = client.said.capabilities.document_range_formatting_provider
    assert bool(getattr(said, "ranges_support", None)) == bool(takes and takes.ranges_support)
    edits = await client.text_document_ranges_formatting_async(
        lsp.DocumentRangesFormattingParams(
            text_document=document, ranges=[line(2), line(5), line(6)], options=options
        )
    )
    assert {it.range.start.line for it in edits} == {2, 5}
    snippets = []
    for found in await findings(client, document):
        actions = await fixes_of(client, document, found)
        for action in actions:
            for change in action.edit.document_changes or []:
                snippets += [it for it in change.edits if isinstance(it, lsp.SnippetTextEdit)]
    assert bool(snippets) == bool(client.offers.workspace.workspace_edit.snippet_edit_support)
    assert all(it.snippet.value.startswith("${1|9.9,") for it in snippets)


@pytest.mark.asyncio
async def test_the_whole_document_answers(client, pens):
    document, text = opened(client, pens, "heron.quillet")
    one = {"text_document": document}
    options = lsp.FormattingOptions(tab_size=2, insert_spaces=True)
    assert await client.text_document_document_symbol_async(lsp.DocumentSymbolParams(**one))
    assert await client.text_document_folding_range_async(lsp.FoldingRangeParams(**one))
    assert await client.text_document_document_link_async(lsp.DocumentLinkParams(**one))
    assert await client.text_document_code_lens_async(lsp.CodeLensParams(**one))
    assert await client.text_document_inlay_hint_async(
        lsp.InlayHintParams(range=whole(text), **one)
    )
    tokens = await client.text_document_semantic_tokens_full_async(lsp.SemanticTokensParams(**one))
    part = await client.text_document_semantic_tokens_range_async(
        lsp.SemanticTokensRangeParams(range=lsp.Range(lsp.Position(0, 0), lsp.Position(9, 0)), **one)
    )
    assert tokens.data[: len(part.data)] == part.data and 0 < len(part.data) < len(tokens.data)
    assert await client.text_document_selection_range_async(
        lsp.SelectionRangeParams(positions=[lsp.Position(12, 4)], **one)
    )
    # The examples are in canonical form.
    assert not await client.text_document_formatting_async(
        lsp.DocumentFormattingParams(options=options, **one)
    )
    await client.text_document_range_formatting_async(
        lsp.DocumentRangeFormattingParams(range=whole(text), options=options, **one)
    )
    assert await client.workspace_symbol_async(lsp.WorkspaceSymbolParams(query="cap"))
