using System.Security.Cryptography;
using System.Text;

namespace Sandarac.Studio.Documents.Web;

/// <summary>The look of documents as pages: neutral greys around pictures, serif for reading, tabular figures. No colour but the pictures' own.</summary>
public static class DocumentStyle
{
    internal const string Css = """
        :root { color-scheme: light; }
        * { box-sizing: border-box; }
        body { margin: 0; background: #ececec; color: #1c1c1c; font: 17px/1.5 "Source Serif 4", "Source Serif Pro", Charter, "Bitstream Charter", Cambria, Georgia, "DejaVu Serif", serif; }
        main { max-width: 1080px; margin: 0 auto; padding: 56px 40px 72px; background: #ffffff; }
        h1 { font-size: 38px; line-height: 1.15; font-weight: 600; margin: 0 0 4px; }
        h2 { font-size: 24px; font-weight: 600; margin: 56px 0 12px; }
        h3 { font-size: 18px; font-weight: 600; margin: 32px 0 4px; }
        p { margin: 0 0 12px; max-width: 72ch; }
        .lead { color: #4a4a4a; font-size: 19px; margin-bottom: 28px; }
        .small, figcaption, .note { font-size: 14.5px; line-height: 1.45; color: #3c3c3c; }
        dl.facts { display: grid; grid-template-columns: 12em 1fr; gap: 4px 24px; margin: 0 0 24px; }
        dt { color: #585858; }
        dd { margin: 0; }
        figure { margin: 0; break-inside: avoid; }
        figure img { display: block; width: 100%; height: auto; background: #777777; }
        figcaption { margin-top: 4px; }
        figcaption strong { font-size: 16px; color: #1c1c1c; overflow-wrap: anywhere; }
        .bar { display: block; width: 100%; height: 4px; margin-top: 8px; }
        .bar rect { fill: #1c1c1c; }
        .barlabel { margin: 0 0 4px; font-size: 13px; }
        .frontispiece { background: #777777; padding: 32px; margin: 0 0 32px; }
        .frontispiece img { max-height: 78vh; width: auto; max-width: 100%; margin: 0 auto; }
        .frontispiece .bar rect { fill: #000000; }
        .frontispiece .barlabel, .frontispiece figcaption, .frontispiece figcaption strong { color: #000000; }
        .grid { display: grid; grid-template-columns: repeat(auto-fill, minmax(280px, 1fr)); gap: 36px 28px; margin: 16px 0 0; align-items: start; }
        .tight { grid-template-columns: repeat(auto-fill, minmax(150px, 1fr)); gap: 20px; }
        .tight figcaption, .tight figcaption strong { font-size: 12.5px; }
        .wide { margin: 20px 0 24px; }
        .wide img { max-height: 88vh; width: auto; max-width: 100%; }
        .drawing img { background: #ffffff; }
        .missing { background: #ececec; padding: 24px 16px; }
        .running { display: none; }
        .letterhead { display: flex; justify-content: space-between; gap: 24px; margin: 0 0 40px; font: 15px/1.4 "Source Sans 3", "Segoe UI", Helvetica, Arial, sans-serif; }
        .letterhead img { max-width: 200px; max-height: 72px; }
        .contents ol { list-style: none; margin: 0; padding: 0; }
        .contents ol ol { padding-left: 28px; font-size: 16px; }
        .contents a { color: inherit; }
        ul.legend { list-style: none; padding: 0; margin: 12px 0; }
        ul.legend li { display: flex; gap: 12px; align-items: center; margin: 4px 0; font-size: 14.5px; }
        ul.legend img { width: 44px; height: auto; }
        caption { text-align: left; padding: 0 0 6px; font-size: 14.5px; }
        .sign { display: grid; grid-template-columns: 2fr 1fr; gap: 4px 32px; margin: 28px 0; max-width: 76ch; }
        .sign .line { border-bottom: 1px solid #6a6a6a; min-height: 44px; display: flex; align-items: flex-end; }
        .sign .role { grid-column: 1 / -1; }
        .scroll { overflow-x: auto; }
        table { border-collapse: collapse; font-size: 14.5px; line-height: 1.35; font-variant-numeric: tabular-nums lining-nums; margin: 12px 0 20px; }
        th { text-align: left; font-weight: 600; vertical-align: bottom; padding: 6px 18px 6px 0; border-bottom: 1px solid #8a8a8a; }
        td { vertical-align: top; padding: 5px 18px 5px 0; border-bottom: 1px solid #dedede; }
        td.n, th.n { text-align: right; white-space: nowrap; }
        .pm { font-size: 12px; color: #4a4a4a; }
        .unit { font-weight: 400; color: #585858; }
        .warning, .caution { border-left: 4px solid #6a6a6a; background: #f2f2f2; padding: 8px 14px; margin: 8px 0; max-width: 76ch; font-size: 15.5px; }
        .caution { border-left-color: #1c1c1c; }
        ul.plain { padding-left: 20px; margin: 4px 0 12px; }
        code { font: 12.5px/1.5 "Source Code Pro", "DejaVu Sans Mono", monospace; overflow-wrap: anywhere; }
        footer { margin-top: 64px; padding-top: 12px; border-top: 1px solid #b0b0b0; font-size: 14px; color: #4a4a4a; }
        @media (max-width: 700px) { main { padding: 24px 16px; } .pair { grid-template-columns: 1fr; } dl.facts { grid-template-columns: 1fr; gap: 0; } dd { margin-bottom: 8px; } }
        @media print { .running { display: block; position: fixed; top: -12mm; left: 0; right: 0; font-size: 8.5pt; color: #4a4a4a; border-bottom: 0.5pt solid #8a8a8a; } @page { margin: 24mm 18mm 18mm; }
          body { background: none; font-size: 11pt; } tr, .sign { break-inside: avoid; } main { padding: 0; max-width: none; } h2 { break-after: avoid; } .scroll { overflow: visible; } }
        """;

    /// <summary>What a content-security policy names to allow exactly this style: <c>'sha256-...'</c>.</summary>
    public static string PolicySource { get; } = $"'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(Css)))}'";
}
