using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
using SensorLab.Bench.Access;
using SensorLab.Bench.Sessions;
using SensorLab.Bench.Sharing;
using SensorLab.Frames;
using SensorLab.Intakes;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Profiles;
using SensorLab.Publishing.Bundles;
using SensorLab.Reports;
using SensorLab.Retest;

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
        routes.MapPost("/api/publish", Guarded(PublishAsync));
        routes.MapGet("/chart/{name}", Guarded(ChartAsync));
        routes.MapGet("/field.png", Guarded(FieldAsync));
        routes.MapGet("/share/{name}", Guarded(c => BytesAsync(c, "code.svg", ((string)c.Request.RouteValues["name"]!, share) switch
        {
            ("shot-list.svg", { } own) => own.Code(isPocketSheet: false),
            ("pocket.svg", { } own) => own.Code(isPocketSheet: true),
            _ => null,
        })));
        routes.MapGet("/plan/{name}", Guarded(c => FileAsync(c, session.Plan is { } plan ? PlanWriter.Files(plan) : [])));
        routes.MapGet("/report/{**name}", Guarded(c => FileAsync(c, session.Finished?.Report ?? [])));
        routes.MapGet("/retest/{**name}", Guarded(c => FileAsync(c, session.Finished?.Retest ?? [])));
        routes.MapGet("/profile.json", Guarded(c => BytesAsync(c, "profile.json", session.Finished?.Document())));
        routes.MapGet("/pocket.html", Guarded(c => BytesAsync(c, "pocket.html", session.Finished is { } set ? PocketWriter.Html([set.Profile]) : null)));
        routes.MapGet("/pocket.pdf", Guarded(c => BytesAsync(c, "pocket.pdf", session.Finished is { } set ? PocketWriter.Pdf([set.Profile], c.RequestAborted) : null)));
        routes.MapGet("/bundle.zip", Guarded(c => BytesAsync(c, "bundle.zip", session.Finished?.Bundle)));
    }

    /// <summary>A page of ours carries its own policy, which allows its own style and script by hash.</summary>
    public static void AllowOwnPage(HttpContext context) => context.Response.Headers.ContentSecurityPolicy = "frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

    private static RequestDelegate Guarded(RequestDelegate answer) => async context =>
    {
        try
        {
            await answer(context);
        }
        catch (Exception e) when (StatusOf(e) is { } status)
        {
            context.Response.StatusCode = status;
            await JsonAsync(context, new Fault(e.Message, null), BenchJson.Default.Fault);
        }
    };

    private static int? StatusOf(Exception e) => e switch
    {
        JsonException or PlanUsageException or PlanFormatException or ArgumentException or NotSupportedException => StatusCodes.Status400BadRequest,
        ProfileFormatException or ProfilesNotComparableException or FindingsNotAcceptedException or FrameSetRefusedException or FrameTableException => StatusCodes.Status422UnprocessableEntity,
        BadHttpRequestException bad => bad.StatusCode,
        IOException or UnauthorizedAccessException or MalformedFileException or UnsupportedFileException or FontsMissingException or Imaging.ImagingLibraryMissingException => StatusCodes.Status422UnprocessableEntity,
        _ => null,
    };

    private static Task JsonAsync<T>(HttpContext context, T document, JsonTypeInfo<T> type)
    {
        context.Response.ContentType = "application/json";
        return JsonSerializer.SerializeAsync(context.Response.Body, document, type, context.RequestAborted);
    }

    private static async Task<T> BodyAsync<T>(HttpContext context, JsonTypeInfo<T> type)
        where T : class
    {
        if (context.Request.ContentType?.StartsWith("application/json", StringComparison.OrdinalIgnoreCase) != true)
        {
            throw new BadHttpRequestException("The request's body is JSON here.", StatusCodes.Status415UnsupportedMediaType);
        }

        return await JsonSerializer.DeserializeAsync(context.Request.Body, type, context.RequestAborted) ?? throw new JsonException("The request's body is empty.");
    }

    private static async Task PageAsync(HttpContext context, string name)
    {
        if (PageFiles.Find(name) is not { } file)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        context.Response.ContentType = file.Type;
        await context.Response.Body.WriteAsync(file.Bytes, context.RequestAborted);
    }

    private static Task FileAsync(HttpContext context, IReadOnlyList<ReportFile> files)
    {
        string name = (string?)context.Request.RouteValues["name"] ?? string.Empty;
        int at = files.Select((f, i) => (f.Name, Index: i)).Where(f => f.Name == name).Select(f => f.Index).DefaultIfEmpty(-1).First();
        return BytesAsync(context, name, at < 0 ? null : files[at].Bytes.ToArray());
    }

    private static async Task BytesAsync(HttpContext context, string name, byte[]? bytes)
    {
        if (bytes is null)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        if (name.EndsWith(".html", StringComparison.Ordinal))
        {
            AllowOwnPage(context);
        }
        else if (name.EndsWith(".svg", StringComparison.Ordinal))
        {
            context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'";
        }

        context.Response.ContentType = PageFiles.TypeOf(name);
        await context.Response.Body.WriteAsync(bytes, context.RequestAborted);
    }

    private static Task DoneAsync(HttpContext context, Action act)
    {
        act();
        context.Response.StatusCode = StatusCodes.Status204NoContent;
        return Task.CompletedTask;
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
            session.Open(folder);
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
            From = string.IsNullOrWhiteSpace(form.From) ? null : SensorProfileReader.ReadFile(FullPath(form.From)),
        });
        context.Response.ContentType = "application/json";
        await context.Response.Body.WriteAsync(ShotPlanDocument.Write(LiveOrder.Of(plan)), context.RequestAborted);
    }

    private static ShutterTime TimeOf(string label) => new ShutterRange(ShutterTime.Shortest, ShutterTime.Longest).Times.Cast<ShutterTime?>().FirstOrDefault(t => t!.Value.Label == label)
        ?? throw new ArgumentException($"No dial has the time {label}: write it as 1/60, 0.4 or 8.");

    private static string FullPath(string path) => Path.IsPathFullyQualified(path) ? Path.GetFullPath(path) : throw new ArgumentException("Name the profile by its full path.");

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

    private async Task RetestAsync(HttpContext context)
    {
        RetestRequest request = await BodyAsync(context, BenchJson.Default.RetestRequest);
        FinishedSet finished = session.Finished ?? throw new ArgumentException("There is no finished profile to compare.");
        SensorProfile before = SensorProfileReader.ReadFile(FullPath(request.Before ?? string.Empty));
        RetestResult result = RetestRun.Of(before, finished.Profile, [], RetestMargins.Default, context.RequestAborted);
        session.Show(finished with { Retest = RetestReportWriter.Files(result, context.RequestAborted) });
        context.Response.StatusCode = StatusCodes.Status204NoContent;
    }

    private async Task PublishAsync(HttpContext context)
    {
        PublishRequest request = await BodyAsync(context, BenchJson.Default.PublishRequest);
        FinishedSet finished = session.Finished ?? throw new ArgumentException("There is no finished profile to publish.");
        PublishedBundle bundle = Publication.Make(finished.Profile, new PublishingOptions { IsAnonymous = request.Anonymous, AcceptsFindings = request.AcceptFindings }, context.RequestAborted);
        session.Show(finished with { Bundle = bundle.Bytes.ToArray() });
        context.Response.StatusCode = StatusCodes.Status204NoContent;
    }

    private Task ChartAsync(HttpContext context)
    {
        string name = (string)context.Request.RouteValues["name"]!;
        bool isDark = context.Request.Query["theme"] == "dark";
        return BytesAsync(context, name + ".svg", session.Profile is not { } profile ? null
            : name == BenchSession.LampName ? ReportCharts.Lamp(session.Lamp.Readings, profile.Body.Model ?? string.Empty, session.Lamp.HasTimes, isDark)
            : ReportCharts.Svg(profile, name, isDark));
    }

    private Task FieldAsync(HttpContext context)
    {
        if (session is not { Folder: { } folder, Profile: { Conditions.Region: { } region } profile } || profile.Frames.FirstOrDefault(f => f is { Role: RoleName.Metered, Used: true })?.File is not { } file)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return Task.CompletedTask;
        }

        var area = Measurement.Field.MeasurementArea.SpotShare;
        int width = (int)(profile.Sensor.WidthPixels * area);
        int height = (int)(profile.Sensor.HeightPixels * area);
        (int x, int y) = options.Characterisation.Spot ?? (profile.Sensor.WidthPixels / 2, profile.Sensor.HeightPixels / 2);
        var report = new IntakeReport
        {
            CanBeCharacterised = true,
            Region = region,
            Spot = new MeasuredRegion(x - (width / 2), y - (height / 2), width, height),
            FieldFrame = file,
            Isos = [],
            RawFiles = 0,
            LeftOut = [],
            FilesIgnored = 0,
            Findings = [],
        };
        return BytesAsync(context, "field.png", FieldThumbnail.Png(folder, report, context.RequestAborted));
    }
}
