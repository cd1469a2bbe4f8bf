using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

/// <summary>axe finds no serious or critical issue on any page, and everything is reached by keys.</summary>
public sealed class AccessTests(SpecimenStudio studio)
{
    [Theory]
    [InlineData("easel")]
    [InlineData("easel", "?mode=beside", "c")]
    [InlineData("easel", "?mode=divide", "?")]
    [InlineData("photographs")]
    [InlineData("readings")]
    [InlineData("sections", "?sample=new")]
    [InlineData("document")]
    [InlineData("dossier")]
    [InlineData("plan")]
    [InlineData("cleaning")]
    [InlineData("dating")]
    [InlineData("panel", "?calc=movement&wood=oak&widths=300&angle=0&from=50&to=35&temperature=20")]
    [InlineData("proposal", "?proposal=new")]
    [InlineData("treatment", "?step=new")]
    [InlineData("easel", "?treat=")]
    [InlineData("findings", "?finding=new")]
    [InlineData("../../search", "?words=veil")]
    [InlineData("../../solvents", "?solvent=toluene")]
    [InlineData("../../solvents/mixture", "?mixture=ethanol+20+%2B+isooctane+80&region=*")]
    [InlineData("../../solvents/blend", "?target=toluene&most=2&least=5")]
    [InlineData("../../solvents/shelf")]
    [InlineData("../../calculators", "?calc=buffer&buffer=acetate&concentration=0.05&ph=5.5&cation=Na%2B")]
    [InlineData("..")]
    public async Task No_serious_issue(string name, string query = "", string key = "")
    {
        // axe is a script put into the page, which the page's own policy forbids.
        await using var page = name == ".." ? await studio.OpenAsync("", "../..", bypassPolicy: true) : await studio.OpenAsync(query, name, bypassPolicy: true);
        if (name == "easel") await page.SettleAsync();
        else await page.Page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        if (key.Length > 0) await page.PressAsync(key);
        var found = await page.Page.RunAxe();
        Assert.Empty(found.Violations.Where(v => v.Impact is "serious" or "critical")
            .Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"));
        Assert.True(found.Passes.Length > 5, "axe looked at next to nothing");
    }

    [Fact]
    public async Task The_list_of_keys_opens_and_single_letters_can_be_turned_off()
    {
        await using var page = await studio.OpenAsync();
        await page.SettleAsync();
        await page.PressAsync("?");
        await page.SettleAsync("keys");
        await page.Page.GetByLabel("Single letters are keys").UncheckAsync();
        await page.PressAsync("Escape", "d");
        await Assertions.Expect(page.Page.Locator("[data-mode=divide]")).ToHaveAttributeAsync("aria-pressed", "false");
        await page.PressAsync("?");
        await page.Page.GetByLabel("Single letters are keys").CheckAsync();
        await page.PressAsync("Escape", "d");
        await Assertions.Expect(page.Page.Locator("[data-mode=divide]").First).ToHaveAttributeAsync("aria-pressed", "true");
    }

    [Fact]
    public async Task Everything_that_can_be_pressed_is_reached_by_Tab()
    {
        await using var page = await studio.OpenAsync("?mode=divide");
        await page.SettleAsync();
        var wanted = await page.Page.Locator("#easel button:visible:enabled, #easel [tabindex='0']:visible").CountAsync();
        var reached = new HashSet<string>();
        for (var i = 0; i < wanted + 20; i++)
        {
            await page.Page.Keyboard.PressAsync("Tab");
            var here = await page.Page.EvaluateAsync<string?>(
                "() => { const e = document.activeElement; return e && e.closest('#easel') ? e.tagName + e.className + e.textContent + (e.getAttribute('aria-label') ?? '') : null; }");
            if (here is not null) reached.Add(here);
        }
        Assert.True(reached.Count >= wanted - 1, $"{reached.Count} of {wanted} reached");
    }
}
