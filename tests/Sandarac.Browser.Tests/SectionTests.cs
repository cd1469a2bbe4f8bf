using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Sandarac.Browser.Tests;

public sealed class SectionTests(SpecimenStudio studio)
{
    /// <summary>From a section found in the folder to its layers in the build-up, by what is on the pages alone.</summary>
    [Fact, Trait("Speed", "slow")]
    public async Task A_section_gets_a_record_layers_a_place_in_the_build_up_and_is_measured()
    {
        // A sample lies on the Easel at its place: on the first painting it would be in the pictures of others.
        await using var page = await studio.OpenAsync("", "sections", bypassPolicy: true, painting: studio.ExamineAlone("VIS_01.tif", "XSEC_S1_VIS.tif"));
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Begin the record of S1 with them" }).ClickAsync();
        await page.Page.Locator("#micrographs.begun canvas").First.WaitForAsync();
        await page.Page.GetByLabel("From the left edge").FillAsync("120");
        await page.Page.GetByLabel("From the bottom edge").FillAsync("90");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Keep these changes" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator("section.sample > p").First).ToHaveTextAsync("120.0 mm from left, 90.0 mm from bottom");
        foreach (var name in new[] { "ground", "blue paint" })
        {
            await page.Page.GetByRole(AriaRole.Link, new() { Name = "Write down a layer" }).ClickAsync();
            await page.Page.GetByLabel("Name", new() { Exact = true }).FillAsync(name);
            await page.Page.GetByRole(AriaRole.Button, new() { Name = "Write this layer down" }).ClickAsync();
            await page.Page.GetByRole(AriaRole.Button, new() { Name = $"{name}, a stage of the build-up" }).ClickAsync();
            await page.Page.GetByRole(AriaRole.Link, new() { Name = name, Exact = true }).WaitForAsync();
        }
        await AssertNoSeriousIssueAsync(page);
        await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "sections.png"), FullPage = true });
        await page.Page.GetByRole(AriaRole.Link, new() { Name = "Build-up", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".prose")).ToContainTextAsync("Over ground, in sample S1, blue paint.");
        await Assertions.Expect(page.Page.Locator("svg.buildup a.stage")).ToHaveCountAsync(2);
        await page.Page.Locator("#entry-upper").SelectOptionAsync(new SelectOptionValue { Label = "ground" });
        await page.Page.Locator("#entry-lower").SelectOptionAsync(new SelectOptionValue { Label = "blue paint" });
        await page.Page.GetByLabel("What is seen").FillAsync("the ground was laid over it at a repair");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "State this relation" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator(".chain li")).ToHaveCountAsync(2);
        await AssertNoSeriousIssueAsync(page);
        await page.Page.ScreenshotAsync(new() { Path = Path.Combine(SpecimenStudio.Artifacts, "build-up.png"), FullPage = true });
        await MeasureAsync(page);
    }

    /// <summary>What was written by hand keeps its name when measured layers are taken over.</summary>
    private static async Task MeasureAsync(EaselPage page)
    {
        await page.Page.GetByRole(AriaRole.Link, new() { Name = "Sections", Exact = true }).ClickAsync();
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Propose layers" }).ClickAsync();
        await page.Page.Locator("#section-desk tbody tr").Nth(2).WaitForAsync();
        await EditAsync(page);
        await AssertNoSeriousIssueAsync(page);
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Take over as layers" }).ClickAsync();
        await page.Page.Locator("#column").WaitForAsync();
        await Assertions.Expect(page.Page.Locator("#layers ~ .scroll tr").Filter(new() { HasText = "blue paint" })).ToContainTextAsync("5th to 95th percentile");
    }

    /// <summary>Each step is a run, which may wait for others on a busy machine.</summary>
    private const float Patience = 60_000;

    /// <summary>A boundary is taken out by keys alone, which is undone; another is drawn with the pointer, and stays when the page is opened again; then the scale is the microscope's.</summary>
    private static async Task EditAsync(EaselPage page)
    {
        var rows = page.Page.Locator("#section-desk tbody tr");
        var before = await rows.CountAsync();
        await page.Page.GetByText("Steer by numbers").FocusAsync();
        await page.Page.Keyboard.PressAsync("Enter");
        await page.Page.Locator("#section-pinned").SelectOptionAsync(new SelectOptionValue { Label = "top of layer 1" });
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Take it out" }).PressAsync("Enter");
        await Assertions.Expect(rows).ToHaveCountAsync(before - 1, new() { Timeout = Patience });
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Undo the last step" }).PressAsync("Enter");
        await Assertions.Expect(rows).ToHaveCountAsync(before, new() { Timeout = Patience });
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Draw by hand" }).ClickAsync();
        await page.Page.Locator("#micrographs").EvaluateAsync("place => place.scrollIntoView()");
        var course = await page.Page.EvaluateAsync<double[]>("""
            async () => {
              const sample = document.getElementById('section-desk').dataset.sample;
              const { layers, inputs } = await (await fetch(`/api/samples/${sample}/section`)).json();
              const line = (await (await fetch(`/api/runs/${layers.id}/proposals`)).json()).filter((p) => p.kind === 'layer-boundary')[1].geometry.coordinates;
              const { width, height } = await (await fetch(`/api/layers/o-${inputs.visible[0]}`)).json();
              const pane = document.querySelector('#micrographs .pane').getBoundingClientRect();
              const scale = Math.min((pane.width - 48) / width, (pane.height - 72) / height);
              const middle = line.slice(Math.floor(line.length * 0.4), Math.floor(line.length * 0.6));
              return middle.flatMap(([x, y]) => [pane.left + 24 + (pane.width - 48) / 2 + (x - width / 2) * scale, pane.top + 24 + (pane.height - 72) / 2 + (y - height / 2) * scale]);
            }
            """);
        await page.Page.Mouse.MoveAsync((float)course[0], (float)course[1]);
        await page.Page.Mouse.DownAsync();
        for (var i = 2; i < course.Length; i += 2) await page.Page.Mouse.MoveAsync((float)course[i], (float)course[i + 1]);
        await page.Page.Mouse.UpAsync();
        await Assertions.Expect(page.Page.Locator("#section-desk summary").Filter(new() { HasText = "Steps taken (1)" })).ToBeVisibleAsync(new() { Timeout = Patience });
        await page.Page.ReloadAsync();
        await page.Page.GetByText("Steps taken (1)").ClickAsync();
        await Assertions.Expect(page.Page.Locator("#section-desk li").First).ToContainTextAsync("drawn from");
        await Assertions.Expect(rows).ToHaveCountAsync(before, new() { Timeout = Patience });
        // 4.6 um / 20.
        await page.Page.GetByText("Scale and cut").ClickAsync();
        await page.Page.GetByLabel("Scale from").SelectOptionAsync("optics");
        await page.Page.GetByLabel("Objective's magnification").FillAsync("20");
        await page.Page.GetByLabel("Camera's pixel pitch").FillAsync("4.6");
        await page.Page.GetByRole(AriaRole.Button, new() { Name = "Propose again" }).ClickAsync();
        await Assertions.Expect(page.Page.Locator("#section-desk .results > p").First).ToContainTextAsync("0.230", new() { Timeout = Patience });
        await Assertions.Expect(page.Page.Locator("#section-desk .results > p").First).ToContainTextAsync("objective and camera");
    }

    private static async Task AssertNoSeriousIssueAsync(EaselPage page)
    {
        var found = await page.Page.RunAxe();
        Assert.Empty(found.Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"));
    }
}
