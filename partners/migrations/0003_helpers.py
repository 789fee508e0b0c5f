import django.core.validators
import django.db.models.deletion
import django.utils.timezone
import partners.ground.fields
import partners.ground.wall
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('partners', '0002_trades'),
    ]

    operations = [
        migrations.CreateModel(
            name='JobCard',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('job', models.CharField(choices=[('cutting', 'cutting and trimming'), ('sorting', 'sorting'), ('mounting', 'mounting'), ('labelling', 'labelling'), ('hanging', 'hanging a show'), ('taking_down', 'taking a show down'), ('photographing', 'photographing work'), ('sewing', 'sewing and kits at home'), ('carrying', 'fetching and delivering'), ('other', 'something else')], default='other', max_length=14, verbose_name='job')),
                ('title', models.CharField(max_length=120, verbose_name='title')),
                ('steps', models.JSONField(default=list, help_text='At most seven.', verbose_name='steps')),
                ('with_what', models.CharField(blank=True, max_length=300, verbose_name='with what')),
                ('where_it_goes', models.CharField(blank=True, max_length=300, verbose_name='where each thing goes')),
                ('looks_done', models.CharField(blank=True, max_length=300, verbose_name='what done looks like')),
                ('cautions', models.JSONField(blank=True, default=list, verbose_name='cautions')),
            ],
            options={
                'verbose_name': 'job card',
                'ordering': ['title', 'id'],
                'default_related_name': 'job_cards',
            },
        ),
        migrations.CreateModel(
            name='Kit',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('what', models.CharField(max_length=160, verbose_name='what')),
                ('quantity', models.PositiveIntegerField(blank=True, null=True, verbose_name='how many')),
                ('out_on', models.DateField(verbose_name='taken home on')),
                ('due', models.DateField(verbose_name='back by')),
                ('back_on', models.DateField(blank=True, null=True, verbose_name='back on')),
                ('quantity_back', models.PositiveIntegerField(blank=True, null=True, verbose_name='how many came back')),
                ('minutes', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='minutes it took')),
                ('thanked_on', models.DateField(blank=True, null=True, verbose_name='thanked on')),
            ],
            options={
                'verbose_name': 'kit at home',
                'verbose_name_plural': 'kits at home',
                'ordering': ['-out_on', '-id'],
                'default_related_name': 'kits',
            },
        ),
        migrations.CreateModel(
            name='Session',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('day', models.DateField(verbose_name='day')),
                ('starts', models.TimeField(verbose_name='from')),
                ('ends', models.TimeField(verbose_name='until')),
                ('place', models.CharField(max_length=120, verbose_name='place')),
                ('job', models.CharField(choices=[('cutting', 'cutting and trimming'), ('sorting', 'sorting'), ('mounting', 'mounting'), ('labelling', 'labelling'), ('hanging', 'hanging a show'), ('taking_down', 'taking a show down'), ('photographing', 'photographing work'), ('sewing', 'sewing and kits at home'), ('carrying', 'fetching and delivering'), ('other', 'something else')], default='other', max_length=14, verbose_name='job')),
                ('needed', models.PositiveSmallIntegerField(default=2, validators=[django.core.validators.MinValueValidator(1)], verbose_name='helpers needed')),
                ('week_due', models.DateField(blank=True, editable=False, null=True, verbose_name='confirm a week before')),
                ('week_done_on', models.DateField(blank=True, editable=False, null=True, verbose_name='confirmed a week before')),
                ('day_due', models.DateField(blank=True, editable=False, null=True, verbose_name='confirm a day before')),
                ('day_done_on', models.DateField(blank=True, editable=False, null=True, verbose_name='confirmed a day before')),
                ('counted_on', models.DateField(blank=True, editable=False, null=True, verbose_name='who came was noted on')),
                ('called_off_on', models.DateField(blank=True, editable=False, null=True, verbose_name='called off on')),
            ],
            options={
                'verbose_name': 'session',
                'verbose_name_plural': 'sessions',
                'ordering': ['-day', '-starts', '-id'],
                'default_related_name': 'sessions',
            },
        ),
        migrations.CreateModel(
            name='Show',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('title', models.CharField(max_length=120, verbose_name='title')),
                ('place', models.CharField(blank=True, max_length=120, verbose_name='place')),
                ('opens_on', models.DateField(verbose_name='opens on')),
                ('opens_at', models.TimeField(blank=True, null=True, verbose_name='hour')),
                ('closes_on', models.DateField(blank=True, null=True, verbose_name='taken down on')),
                ('works', models.PositiveIntegerField(validators=[django.core.validators.MinValueValidator(1)], verbose_name='works')),
                ('works_per_panel', models.PositiveSmallIntegerField(default=12, validators=[django.core.validators.MinValueValidator(1)], verbose_name='works on a panel')),
                ('first_timers_percent', models.PositiveSmallIntegerField(default=20, validators=[django.core.validators.MaxValueValidator(200)], verbose_name='more time for first-timers (%)')),
            ],
            options={
                'verbose_name': 'show',
                'verbose_name_plural': 'shows',
                'ordering': ['-opens_on', '-id'],
                'default_related_name': 'shows',
            },
        ),
        migrations.CreateModel(
            name='ShowJob',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('job', models.CharField(choices=[('cutting', 'cutting and trimming'), ('sorting', 'sorting'), ('mounting', 'mounting'), ('labelling', 'labelling'), ('hanging', 'hanging a show'), ('taking_down', 'taking a show down'), ('photographing', 'photographing work'), ('sewing', 'sewing and kits at home'), ('carrying', 'fetching and delivering'), ('other', 'something else')], max_length=14, verbose_name='job')),
                ('tenths_per_work', models.PositiveSmallIntegerField(verbose_name='minutes a work, in tenths')),
                ('works', models.PositiveIntegerField(verbose_name='works')),
                ('real_works', models.PositiveIntegerField(blank=True, null=True, verbose_name='works that were done')),
                ('real_minutes', models.PositiveIntegerField(blank=True, null=True, verbose_name='minutes it took, all helpers together')),
            ],
            options={
                'verbose_name': 'job of a show',
                'ordering': ['show', 'id'],
                'default_related_name': 'show_jobs',
            },
        ),
        migrations.CreateModel(
            name='SlipBatch',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('number', models.PositiveIntegerField(verbose_name='number of the stack')),
                ('day', models.DateField(verbose_name='typed on')),
            ],
            options={
                'verbose_name': 'stack of slips',
                'verbose_name_plural': 'stacks of slips',
                'ordering': ['-number'],
                'default_related_name': 'slip_batches',
            },
        ),
        migrations.CreateModel(
            name='Turn',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('reply', models.CharField(choices=[('silent', 'no answer yet'), ('yes', 'yes'), ('no', 'no')], default='silent', max_length=6, verbose_name='answer')),
                ('replied_on', models.DateField(blank=True, null=True, verbose_name='answered on')),
                ('came', models.BooleanField(blank=True, null=True, verbose_name='came')),
                ('minutes', models.PositiveSmallIntegerField(blank=True, null=True, validators=[django.core.validators.MaxValueValidator(1440)], verbose_name='minutes')),
                ('thanked_on', models.DateField(blank=True, null=True, verbose_name='thanked on')),
            ],
            options={
                'verbose_name': 'helper in a session',
                'ordering': ['session', 'helper__name_key', 'id'],
                'default_related_name': 'turns',
            },
        ),
        migrations.CreateModel(
            name='Welcome',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('sign_in', models.CharField(blank=True, max_length=200, verbose_name='where to sign in')),
                ('room', models.CharField(blank=True, max_length=160, verbose_name='the art room is')),
                ('toilet', models.CharField(blank=True, max_length=160, verbose_name='toilet and water')),
                ('exits', models.CharField(blank=True, max_length=160, verbose_name='exits')),
                ('whom_to_call', models.CharField(blank=True, max_length=160, verbose_name='whom to call')),
                ('at_office', models.CharField(blank=True, help_text='Factory-sealed, label kept, nut-free.', max_length=200, verbose_name='what waits at the office on days nobody can greet them')),
                ('allergies', models.CharField(blank=True, max_length=200, verbose_name='allergy care')),
                ('rules', models.TextField(blank=True, verbose_name="the school's rules for helpers")),
            ],
            options={
                'verbose_name': 'welcome for helpers',
                'default_related_name': 'welcomes',
            },
        ),
        migrations.AddField(
            model_name='program',
            name='hour_value_cents',
            field=models.PositiveIntegerField(blank=True, help_text='Only for a summary, never on a receipt; empty: hours alone are told.', null=True, verbose_name="value of a helper's hour"),
        ),
        migrations.AddField(
            model_name='program',
            name='hour_value_source',
            field=models.CharField(blank=True, max_length=120, verbose_name='who published it'),
        ),
        migrations.AddField(
            model_name='program',
            name='hour_value_year',
            field=models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='year of that figure'),
        ),
        migrations.CreateModel(
            name='Helper',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('name', models.CharField(blank=True, max_length=120, verbose_name='name')),
                ('name_key', partners.ground.fields.KeyField(blank=True, default='', editable=False, max_length=200)),
                ('room', models.CharField(blank=True, help_text='The class or room only, never a child.', max_length=40, verbose_name="child's class or room")),
                ('phone', models.CharField(blank=True, max_length=40, verbose_name='phone')),
                ('phone_key', partners.ground.fields.KeyField(blank=True, default='', editable=False, max_length=200)),
                ('email', models.EmailField(blank=True, max_length=254, verbose_name='e-mail')),
                ('best_way', models.CharField(blank=True, choices=[('phone', 'call'), ('text', 'text message'), ('email', 'e-mail'), ('note', 'a note home')], max_length=5, verbose_name='best way to reach')),
                ('language', models.CharField(blank=True, max_length=40, verbose_name='language')),
                ('at_school', models.BooleanField(default=False, verbose_name='can help at school')),
                ('from_home', models.BooleanField(default=False, verbose_name='can help from home')),
                ('show_day', models.BooleanField(default=False, verbose_name='can help on show day')),
                ('days', models.JSONField(blank=True, default=list, help_text='0 is Monday.', verbose_name='days')),
                ('times', models.CharField(blank=True, max_length=80, verbose_name='times')),
                ('how_often', models.CharField(blank=True, max_length=40, verbose_name='how often')),
                ('skills', models.CharField(blank=True, max_length=200, verbose_name='skills')),
                ('jobs', models.JSONField(blank=True, default=list, verbose_name='jobs')),
                ('knows_rules', models.BooleanField(default=False, verbose_name="understands the office's sign-in rules")),
                ('place_in_batch', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='slip')),
                ('unreadable', models.BooleanField(default=False, verbose_name='cannot be read yet')),
                ('first_called_on', models.DateField(blank=True, null=True, verbose_name='called on')),
                ('cleared', models.BooleanField(default=False, verbose_name='cleared')),
                ('cleared_until', models.DateField(blank=True, null=True, verbose_name='cleared until')),
                ('cleared_by', models.CharField(blank=True, max_length=120, verbose_name='confirmed by')),
                ('stopped_on', models.DateField(blank=True, null=True, verbose_name='no longer helping since')),
                ('forgotten_on', models.DateField(blank=True, editable=False, null=True, verbose_name='forgotten on')),
                ('note', models.TextField(blank=True, help_text='Write what the person may read; records can be requested.', verbose_name='note')),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('school', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.school', verbose_name='school')),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'verbose_name': 'helper',
                'verbose_name_plural': 'helpers',
                'ordering': ['name_key', 'id'],
                'default_related_name': 'helpers',
            },
        ),
        migrations.AddField(
            model_name='letter',
            name='helper',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.helper'),
        ),
        migrations.AddConstraint(
            model_name='letter',
            constraint=partners.ground.wall.SameProgram(field='helper', name='letter_helper_wall'),
        ),
        migrations.AddField(
            model_name='jobcard',
            name='created_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='jobcard',
            name='program',
            field=models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program'),
        ),
        migrations.AddField(
            model_name='jobcard',
            name='updated_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='kit',
            name='created_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='kit',
            name='helper',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to='partners.helper', verbose_name='helper'),
        ),
        migrations.AddField(
            model_name='kit',
            name='program',
            field=models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program'),
        ),
        migrations.AddField(
            model_name='kit',
            name='school',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.school', verbose_name='school'),
        ),
        migrations.AddField(
            model_name='kit',
            name='updated_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='session',
            name='card',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.jobcard', verbose_name='job card'),
        ),
        migrations.AddField(
            model_name='session',
            name='created_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='session',
            name='program',
            field=models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program'),
        ),
        migrations.AddField(
            model_name='session',
            name='school',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.school', verbose_name='school'),
        ),
        migrations.AddField(
            model_name='session',
            name='updated_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='show',
            name='created_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='show',
            name='program',
            field=models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program'),
        ),
        migrations.AddField(
            model_name='show',
            name='project',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.project', verbose_name='project'),
        ),
        migrations.AddField(
            model_name='show',
            name='school',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.school', verbose_name='school'),
        ),
        migrations.AddField(
            model_name='show',
            name='updated_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='session',
            name='show',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.show', verbose_name='show'),
        ),
        migrations.AddField(
            model_name='showjob',
            name='created_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='showjob',
            name='program',
            field=models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program'),
        ),
        migrations.AddField(
            model_name='showjob',
            name='show',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='jobs', to='partners.show'),
        ),
        migrations.AddField(
            model_name='showjob',
            name='updated_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='slipbatch',
            name='created_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='slipbatch',
            name='program',
            field=models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program'),
        ),
        migrations.AddField(
            model_name='slipbatch',
            name='school',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.school', verbose_name='school'),
        ),
        migrations.AddField(
            model_name='slipbatch',
            name='updated_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='helper',
            name='batch',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.slipbatch', verbose_name='stack'),
        ),
        migrations.AddField(
            model_name='turn',
            name='created_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='turn',
            name='helper',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to='partners.helper', verbose_name='helper'),
        ),
        migrations.AddField(
            model_name='turn',
            name='program',
            field=models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program'),
        ),
        migrations.AddField(
            model_name='turn',
            name='session',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to='partners.session'),
        ),
        migrations.AddField(
            model_name='turn',
            name='updated_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='welcome',
            name='created_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='welcome',
            name='program',
            field=models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program'),
        ),
        migrations.AddField(
            model_name='welcome',
            name='school',
            field=models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, to='partners.school', verbose_name='school'),
        ),
        migrations.AddField(
            model_name='welcome',
            name='updated_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddConstraint(
            model_name='jobcard',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='jobcard_in_program'),
        ),
        migrations.AddConstraint(
            model_name='jobcard',
            constraint=models.UniqueConstraint(fields=('program', 'title'), name='jobcard_title_once', violation_error_message='A card of that title is in the book already.'),
        ),
        migrations.AddIndex(
            model_name='kit',
            index=models.Index(condition=models.Q(('back_on__isnull', True)), fields=['program', 'due', 'id'], name='kit_due'),
        ),
        migrations.AddIndex(
            model_name='kit',
            index=models.Index(fields=['program', 'helper', '-out_on'], name='kit_helper'),
        ),
        migrations.AddConstraint(
            model_name='kit',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='kit_in_program'),
        ),
        migrations.AddConstraint(
            model_name='kit',
            constraint=partners.ground.wall.SameProgram(field='helper', name='kit_helper_wall'),
        ),
        migrations.AddConstraint(
            model_name='kit',
            constraint=partners.ground.wall.SameProgram(field='school', name='kit_school_wall'),
        ),
        migrations.AddConstraint(
            model_name='kit',
            constraint=models.CheckConstraint(condition=models.Q(('due__gte', models.F('out_on'))), name='kit_in_order', violation_error_message='It is due back before it went out.'),
        ),
        migrations.AddIndex(
            model_name='show',
            index=models.Index(fields=['program', '-opens_on', '-id'], name='show_latest'),
        ),
        migrations.AddConstraint(
            model_name='show',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='show_in_program'),
        ),
        migrations.AddConstraint(
            model_name='show',
            constraint=partners.ground.wall.SameProgram(field='school', name='show_school_wall'),
        ),
        migrations.AddConstraint(
            model_name='show',
            constraint=partners.ground.wall.SameProgram(field='project', name='show_project_wall'),
        ),
        migrations.AddConstraint(
            model_name='show',
            constraint=models.CheckConstraint(condition=models.Q(('closes_on', None), ('closes_on__gte', models.F('opens_on')), _connector='OR'), name='show_in_order', violation_error_message='It is taken down before it opens.'),
        ),
        migrations.AddIndex(
            model_name='session',
            index=models.Index(fields=['program', '-day', '-id'], name='session_latest'),
        ),
        migrations.AddIndex(
            model_name='session',
            index=models.Index(condition=models.Q(('called_off_on__isnull', True), ('week_done_on__isnull', True), ('week_due__isnull', False)), fields=['program', 'week_due', 'id'], name='session_week_due'),
        ),
        migrations.AddIndex(
            model_name='session',
            index=models.Index(condition=models.Q(('called_off_on__isnull', True), ('day_done_on__isnull', True), ('day_due__isnull', False)), fields=['program', 'day_due', 'id'], name='session_day_due'),
        ),
        migrations.AddIndex(
            model_name='session',
            index=models.Index(condition=models.Q(('called_off_on__isnull', True), ('counted_on__isnull', True)), fields=['program', 'day', 'id'], name='session_to_count'),
        ),
        migrations.AddConstraint(
            model_name='session',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='session_in_program'),
        ),
        migrations.AddConstraint(
            model_name='session',
            constraint=partners.ground.wall.SameProgram(field='school', name='session_school_wall'),
        ),
        migrations.AddConstraint(
            model_name='session',
            constraint=partners.ground.wall.SameProgram(field='card', name='session_card_wall'),
        ),
        migrations.AddConstraint(
            model_name='session',
            constraint=partners.ground.wall.SameProgram(field='show', name='session_show_wall'),
        ),
        migrations.AddConstraint(
            model_name='session',
            constraint=models.CheckConstraint(condition=models.Q(('ends__gt', models.F('starts'))), name='session_in_order', violation_error_message='It ends before it begins.'),
        ),
        migrations.AddConstraint(
            model_name='session',
            constraint=models.CheckConstraint(condition=models.Q(('place', ''), _negated=True), name='session_has_place', violation_error_message='Say where the helpers shall come.'),
        ),
        migrations.AddIndex(
            model_name='showjob',
            index=models.Index(fields=['program', 'job'], name='showjob_job'),
        ),
        migrations.AddConstraint(
            model_name='showjob',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='showjob_in_program'),
        ),
        migrations.AddConstraint(
            model_name='showjob',
            constraint=partners.ground.wall.SameProgram(field='show', name='showjob_show_wall'),
        ),
        migrations.AddConstraint(
            model_name='showjob',
            constraint=models.UniqueConstraint(fields=('program', 'show', 'job'), name='showjob_once'),
        ),
        migrations.AddConstraint(
            model_name='showjob',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('real_minutes', None), ('real_works', None)), models.Q(('real_minutes__isnull', False), ('real_works__gte', 1)), _connector='OR'), name='showjob_real_together', violation_error_message='Say both: how many works were done, and the minutes it took.'),
        ),
        migrations.AddConstraint(
            model_name='slipbatch',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='slipbatch_in_program'),
        ),
        migrations.AddConstraint(
            model_name='slipbatch',
            constraint=partners.ground.wall.SameProgram(field='school', name='slipbatch_school_wall'),
        ),
        migrations.AddConstraint(
            model_name='slipbatch',
            constraint=models.UniqueConstraint(fields=('program', 'number'), name='slipbatch_number_once', violation_error_message='A stack of that number is in the book already.'),
        ),
        migrations.AddIndex(
            model_name='helper',
            index=models.Index(fields=['program', 'name_key', 'id'], name='helper_by_name'),
        ),
        migrations.AddIndex(
            model_name='helper',
            index=models.Index(condition=models.Q(('cleared', True), ('cleared_until__isnull', False), ('forgotten_on__isnull', True), ('stopped_on__isnull', True)), fields=['program', 'cleared_until', 'id'], name='helper_clearance'),
        ),
        migrations.AddConstraint(
            model_name='helper',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='helper_in_program'),
        ),
        migrations.AddConstraint(
            model_name='helper',
            constraint=partners.ground.wall.SameProgram(field='school', name='helper_school_wall'),
        ),
        migrations.AddConstraint(
            model_name='helper',
            constraint=partners.ground.wall.SameProgram(field='batch', name='helper_batch_wall'),
        ),
        migrations.AddConstraint(
            model_name='helper',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('name', ''), _negated=True), ('unreadable', True), ('forgotten_on__isnull', False), _connector='OR'), name='helper_has_name', violation_error_message='Type the name, or mark the slip as not readable yet.'),
        ),
        migrations.AddIndex(
            model_name='turn',
            index=models.Index(fields=['program', 'helper', 'session'], name='turn_helper'),
        ),
        migrations.AddConstraint(
            model_name='turn',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='turn_in_program'),
        ),
        migrations.AddConstraint(
            model_name='turn',
            constraint=partners.ground.wall.SameProgram(field='session', name='turn_session_wall'),
        ),
        migrations.AddConstraint(
            model_name='turn',
            constraint=partners.ground.wall.SameProgram(field='helper', name='turn_helper_wall'),
        ),
        migrations.AddConstraint(
            model_name='turn',
            constraint=models.UniqueConstraint(fields=('program', 'session', 'helper'), name='turn_once', violation_error_message='That helper is in this session already.'),
        ),
        migrations.AddConstraint(
            model_name='turn',
            constraint=models.CheckConstraint(condition=models.Q(('minutes', None), ('came', True), _connector='OR'), name='turn_only_who_came_has_minutes'),
        ),
        migrations.AddConstraint(
            model_name='welcome',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='welcome_in_program'),
        ),
        migrations.AddConstraint(
            model_name='welcome',
            constraint=partners.ground.wall.SameProgram(field='school', name='welcome_school_wall'),
        ),
    ]
