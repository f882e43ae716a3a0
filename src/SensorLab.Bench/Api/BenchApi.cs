using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
using SensorLab.Bench.Access;
using SensorLab.Bench.Sessions;
using SensorLab.Bench.Sharing;
using SensorLab.Frames;
using SensorLab.Intakes;
using SensorLab.Pixels.Field;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Profiles;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Keys;
using SensorLab.Reports;
using SensorLab.Retest;
using static SensorLab.Bench.Api.Answers;

namespace SensorLab.Bench.Api;

/// <summary>What the page and scripts ask the bench.</summary>
internal sealed class BenchApi(BenchSession session, BenchOptions options, PhoneShare? share, CancellationToken stopping)
{
    private const int MostStreams = 16;

    private int _streams;

    /// <summary>Adds every address.</summary>
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/", (HttpContext c) => PageAsync(c, "bench.html"));
        routes.MapGet("/page/{name}", (HttpContext c) => PageAsync(c, (string)c.Request.RouteValues["name"]!));
        routes.MapGet("/api/state", (HttpContext c) => JsonAsync(c, session.State, BenchJson.Default.BenchState));
        routes.MapGet("/api/frames", (HttpContext c) => JsonAsync(c, session.Frames, BenchJson.Default.IReadOnlyListFrameBrief));
        routes.MapGet("/api/events", EventsAsync);
        routes.MapGet("/api/form", (HttpContext c) => JsonAsync(c, Form(), BenchJson.Default.FormDefaults));
        routes.MapGet("/api/folders", Guarded(c => JsonAsync(c, FolderBrowser.List(c.Request.Query["path"]), BenchJson.Default.FolderListing)));
        routes.MapPost("/api/sets", Guarded(OpenAsync));
        routes.MapPost("/api/close", Guarded(c => DoneAsync(c, session.Close)));
        routes.MapPost("/api/plan", Guarded(PlanAsync));
        routes.MapPost("/api/frames", Guarded(SayAsync));
        routes.MapPost("/api/wanted", Guarded(WantAsync));
        routes.MapPost("/api/characterise", Guarded(CharacteriseAsync));
        routes.MapPost("/api/retest", Guarded(RetestAsync));
        routes.MapPost("/api/debrief", Guarded(DebriefAsync));
        routes.MapPost("/api/publish", Guarded(PublishAsync));
        routes.MapPost("/api/shelf", Guarded(ShelveAsync));
        routes.MapGet("/chart/{name}", Guarded(ChartAsync));
        routes.MapGet("/field.png", Guarded(FieldAsync));
        routes.MapGet("/share/{name}", Guarded(c => BytesAsync(c, "code.svg", ((string)c.Request.RouteValues["name"]!, share) switch
        {
            ("shot-list.svg", { } own) => own.Code(isPocketSheet: false),
            ("pocket.svg", { } own) => own.Code(isPocketSheet: true),
            _ => null,
        })));
        routes.MapGet("/plan/{name}", Guarded(c => FileAsync(c, session.Current?.Plan is { } plan ? PlanWriter.Files(plan) : [])));
        routes.MapGet("/report/{**name}", Guarded(c => FileAsync(c, session.Current?.Finished?.Report ?? [])));
        routes.MapGet("/retest/{**name}", Guarded(c => FileAsync(c, session.Current?.Finished?.Retest ?? [])));
        routes.MapGet("/debrief/{**name}", Guarded(c => FileAsync(c, session.Current?.Finished?.Debrief ?? [])));
        routes.MapGet("/profile.json", Guarded(c => BytesAsync(c, "profile.json", session.Current?.Finished?.Document())));
        routes.MapGet("/pocket.html", Guarded(c => BytesAsync(c, "pocket.html", session.Current?.Finished is { } set ? PocketWriter.Html([set.Profile]) : null)));
        routes.MapGet("/pocket.pdf", Guarded(c => BytesAsync(c, "pocket.pdf", session.Current?.Finished is { } set ? PocketWriter.Pdf([set.Profile], c.RequestAborted) : null)));
        routes.MapGet("/bundle.zip", Guarded(c => BytesAsync(c, "bundle.zip", session.Current?.Finished?.Bundle)));
    }

    private async Task EventsAsync(HttpContext context)
    {
        if (Interlocked.Increment(ref _streams) > MostStreams)
        {
            Interlocked.Decrement(ref _streams);
            context.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
            return;
        }

        using var end = CancellationTokenSource.CreateLinkedTokenSource(stopping, context.RequestAborted);
        try
        {
            context.Response.ContentType = "text/event-stream";
            context.Features.Get<IHttpResponseBodyFeature>()?.DisableBuffering();
            while (!end.IsCancellationRequested)
            {
                Task changed = session.Changed;
                string document = JsonSerializer.Serialize(session.State, BenchJson.Default.BenchState);
                await context.Response.WriteAsync($"data: {document}\n\n", end.Token);
                await context.Response.Body.FlushAsync(end.Token);
                await changed.WaitAsync(end.Token);
            }
        }
        catch (OperationCanceledException)
        {
            // The page was closed, or the bench ends.
        }
        finally
        {
            Interlocked.Decrement(ref _streams);
        }
    }

    private FormDefaults Form() => new(
        [.. ProtocolLibrary.Names.Select(n => ProtocolLibrary.Find(n)!).Select(p => new ProtocolBrief(p.Name, p.Title, p.Purpose, p.Isos))],
        [.. new ShutterRange(ShutterTime.Shortest, ShutterTime.Longest).Times.Select(t => t.Label)],
        options.Shutter.Fastest.Label,
        options.Shutter.Slowest.Label,
        options.MainsHz,
        FolderBrowser.Home);

    private async Task OpenAsync(HttpContext context)
    {
        OpenSetRequest request = await BodyAsync(context, BenchJson.Default.OpenSetRequest);
        if (string.IsNullOrWhiteSpace(request.Folder) || !Path.IsPathFullyQualified(request.Folder))
        {
            throw new ArgumentException("Name the folder by its full path.");
        }

        string folder = Path.GetFullPath(request.Folder);
        if (request.Plan is null && request.Metered is null)
        {
            session.OpenAgain(folder);
        }
        else
        {
            session.Reopen(new JournalEntry(folder, request.Plan, request.Metered ?? [], session.State.Wanted));
        }

        await JsonAsync(context, session.State, BenchJson.Default.BenchState);
    }

    private async Task PlanAsync(HttpContext context)
    {
        PlanFormRequest form = await BodyAsync(context, BenchJson.Default.PlanFormRequest);
        Protocol protocol = ProtocolLibrary.Find(form.Protocol ?? string.Empty) ?? throw new ArgumentException($"There is no protocol {form.Protocol}.");
        MeteredExposure? metered = form is { MeteredShutter: { Length: > 0 } shutter, MeteredIso: { } iso } ? new MeteredExposure(TimeOf(shutter), iso) : null;
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest
        {
            Protocol = protocol,
            Isos = form.Isos ?? [],
            Shutter = new ShutterRange(form.Fastest is null ? options.Shutter.Fastest : TimeOf(form.Fastest), form.Slowest is null ? options.Shutter.Slowest : TimeOf(form.Slowest)),
            Metered = metered,
            Mains = form.Mains is 50 or 60 ? new MainsLight(form.Mains.Value) : null,
            From = string.IsNullOrWhiteSpace(form.From) ? null : options.ReadProfile(FullPath(form.From), context.RequestAborted),
        });
        context.Response.ContentType = "application/json";
        await context.Response.Body.WriteAsync(ShotPlanDocument.Write(LiveOrder.Of(plan)), context.RequestAborted);
    }

    private static ShutterTime TimeOf(string label) => new ShutterRange(ShutterTime.Shortest, ShutterTime.Longest).Times.Cast<ShutterTime?>().FirstOrDefault(t => t!.Value.Label == label)
        ?? throw new ArgumentException($"No dial has the time {label}: write it as 1/60, 0.4 or 8.");

    private static string FullPath(string path) => Path.IsPathFullyQualified(path) ? Path.GetFullPath(path) : throw new ArgumentException("Name it by its full path.");

    private async Task SayAsync(HttpContext context)
    {
        SayRequest request = await BodyAsync(context, BenchJson.Default.SayRequest);
        await DoneAsync(context, () => session.Say(request.Files ?? [], request.Role, request.LightStep));
    }

    private async Task WantAsync(HttpContext context)
    {
        WantedRequest request = await BodyAsync(context, BenchJson.Default.WantedRequest);
        if (request is not { Figure: { } figure, Uncertainty: { } uncertainty } || !session.Want(figure, uncertainty))
        {
            throw new ArgumentException("Name a wanted figure, and an uncertainty above zero.");
        }

        context.Response.StatusCode = StatusCodes.Status204NoContent;
    }

    private Task CharacteriseAsync(HttpContext context)
    {
        context.Response.StatusCode = session.Characterise() ? StatusCodes.Status202Accepted : StatusCodes.Status409Conflict;
        return Task.CompletedTask;
    }

    private (OpenSet Set, FinishedSet Finished) Finished() =>
        session.Current is { Finished: { } finished } set ? (set, finished) : throw new ArgumentException("There is no finished profile: finish the set first.");

    private async Task RetestAsync(HttpContext context)
    {
        RetestRequest request = await BodyAsync(context, BenchJson.Default.RetestRequest);
        (OpenSet set, FinishedSet finished) = Finished();
        SensorProfile before = options.ReadProfile(FullPath(request.Before ?? string.Empty), context.RequestAborted);
        RetestResult result = RetestRun.Of(before, finished.Profile, [], RetestMargins.Default, context.RequestAborted);
        IReadOnlyList<ReportFile> files = RetestReportWriter.Files(result, context.RequestAborted);
        session.Add(set, f => f with { Retest = files });
        context.Response.StatusCode = StatusCodes.Status204NoContent;
    }

    private async Task DebriefAsync(HttpContext context)
    {
        DebriefRequest request = await BodyAsync(context, BenchJson.Default.DebriefRequest);
        _ = Finished();
        context.Response.StatusCode = session.Debrief(FullPath(request.Folder ?? string.Empty)) ? StatusCodes.Status202Accepted : StatusCodes.Status409Conflict;
    }

    private async Task PublishAsync(HttpContext context)
    {
        PublishRequest request = await BodyAsync(context, BenchJson.Default.PublishRequest);
        (OpenSet set, FinishedSet finished) = Finished();
        string? keyPath = string.IsNullOrWhiteSpace(request.Key) ? null : FullPath(request.Key.Trim());
        using SigningKey? key = keyPath is null ? null : SigningKey.ReadFile(keyPath);
        PublishedBundle bundle = Publication.Make(finished.Profile, new PublishingOptions { IsAnonymous = request.Anonymous, AcceptsFindings = request.AcceptFindings, Key = key }, context.RequestAborted);
        session.Add(set, f => f with { Bundle = bundle.Bytes.ToArray() });
        List<string> notices = [];
        if (keyPath is not null && SigningKey.IsReadableByOthers(keyPath))
        {
            notices.Add($"{keyPath} is open to others than you, who could sign in your name: close it with chmod 600.");
        }

        if (keyPath is not null && request.Anonymous)
        {
            notices.Add("The bundle leaves out whose body it is, but its signature names the key.");
        }

        await JsonAsync(context, new PublishedBrief(notices), BenchJson.Default.PublishedBrief);
    }

    private async Task ShelveAsync(HttpContext context)
    {
        (OpenSet set, FinishedSet finished) = Finished();
        IBenchShelf shelf = options.Shelf ?? throw new ArgumentException("This bench has no shelf.");
        await shelf.AddAsync(finished.Profile, context.RequestAborted);
        ShelfView view = shelf.Look(finished.Profile, context.RequestAborted);
        session.Add(set, f => f with { Shelf = view });
        context.Response.StatusCode = StatusCodes.Status204NoContent;
    }

    private Task ChartAsync(HttpContext context)
    {
        string name = (string)context.Request.RouteValues["name"]!;
        bool isDark = context.Request.Query["theme"] == "dark";
        return BytesAsync(context, name + ".svg", session.Current is not { Profile: { } profile } set ? null
            : name == StateView.LampName ? ReportCharts.Lamp(set.Lamp.Readings, profile.Body.Model ?? string.Empty, set.Lamp.HasTimes, isDark)
            : ReportCharts.Svg(profile, name, isDark));
    }

    private Task FieldAsync(HttpContext context)
    {
        if (session.Current is not { Profile: { Conditions.Region: { } region } profile } set || profile.Frames.FirstOrDefault(f => f is { Role: RoleName.Metered, Used: true })?.File is not { } file)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return Task.CompletedTask;
        }

        PixelRectangle spot = MeasurementArea.SpotOf(profile.Sensor.WidthPixels, profile.Sensor.HeightPixels, options.Characterisation.Spot);
        var report = new IntakeReport
        {
            CanBeCharacterised = true,
            Region = region,
            Spot = new MeasuredRegion(spot.X, spot.Y, spot.Width, spot.Height),
            FieldFrame = file,
            Isos = [],
            RawFiles = 0,
            LeftOut = [],
            FilesIgnored = 0,
            Findings = [],
        };
        return BytesAsync(context, "field.png", FieldThumbnail.Png(set.Live.Folder, report, context.RequestAborted));
    }
}
