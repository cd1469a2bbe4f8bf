using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>The Easel speaks the language of its page; what is stored, sent or linked is the same in every language.</summary>
public sealed partial class LanguageTests(SpecimenStudio studio)
{
    /// <summary>Buttons of the toolbar whose word is cut, or that lie over another; and panels wider than their room.</summary>
    private const string CutWords = """
        () => {
          const buttons = [...document.querySelectorAll('#easel .toolbar button')].filter((b) => b.offsetParent).map((b) => [b, b.getBoundingClientRect()]);
          const over = (p, q) => p.left < q.right - 0.5 && q.left < p.right - 0.5 && p.top < q.bottom - 0.5 && q.top < p.bottom - 0.5;
          const bar = document.querySelector('#easel .toolbar').getBoundingClientRect();
          return [
            ...buttons.filter(([b, r]) => b.scrollWidth > b.clientWidth || r.right > bar.right + 0.5).map(([b]) => 'cut: ' + b.textContent),
            ...buttons.flatMap(([b, r], i) => buttons.slice(i + 1).filter(([, s]) => over(r, s)).map(([c]) => b.textContent + ' over ' + c.textContent)),
            ...[...document.querySelectorAll('#easel .panel, #easel .column, #easel dialog[open]')].filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => 'wide: ' + e.className),
          ];
        }
        """;

    [Fact]
    public async Task A_Spanish_page_has_a_Spanish_Easel_of_which_nothing_is_cut()
    {
        await using var page = await studio.OpenAsync();
        await page.Page.RouteAsync(address => address.Contains("/easel", StringComparison.Ordinal), InSpanishAsync);
        await page.Page.ReloadAsync();
        await page.SettleAsync("easel-es");
        var toolbar = page.Page.GetByRole(AriaRole.Toolbar, new() { Name = "Cómo se muestra la pintura" });
        foreach (var word in new[] { "Solo A", "Dividir", "Contraste", "Contorno", "Longitud", "Reiluminar", "Teclas" })
            await Assertions.Expect(toolbar.GetByRole(AriaRole.Button, new() { Name = word, Exact = true })).ToBeVisibleAsync();
        Assert.Empty(await page.Page.EvaluateAsync<string[]>(CutWords));

        // Figures that are read have a comma, those in fields and links a point.
        await page.PressAsync("Enter");
        await Assertions.Expect(page.Page.Locator(".here .where")).ToHaveTextAsync(PlaceInSpanish());
        await page.PressAsync("c");
        await page.Page.GetByRole(AriaRole.Spinbutton, new() { Name = "Gamma" }).FillAsync("1.25");
        await page.Page.Keyboard.PressAsync("Tab");
        Assert.Contains("~g1.25", await page.LinkAsync(), StringComparison.Ordinal);
        Assert.Empty(await page.Page.EvaluateAsync<string[]>(CutWords));

        await page.Page.Locator(".pane.top").FocusAsync();
        await page.PressAsync("?");
        await Assertions.Expect(page.Page.GetByRole(AriaRole.Dialog, new() { Name = "Teclas" })).ToContainTextAsync("girar un cuarto a la derecha");
        Assert.Empty(await page.Page.EvaluateAsync<string[]>(CutWords));
    }

    /// <summary>The page as the server sends it to readers of Spanish.</summary>
    private static async Task InSpanishAsync(IRoute route)
    {
        if (route.Request.ResourceType != "document")
        {
            await route.ContinueAsync();
            return;
        }

        var response = await route.FetchAsync();
        await route.FulfillAsync(new() { Response = response, Body = LanguageOfPage().Replace(await response.TextAsync(), "<html lang=\"es\"") });
    }

    [GeneratedRegex("<html lang=\"[^\"]*\"")]
    private static partial Regex LanguageOfPage();

    [GeneratedRegex(@"^\d+,\d mm desde la izquierda, \d+,\d desde abajo, retenido$")]
    private static partial Regex PlaceInSpanish();
}
